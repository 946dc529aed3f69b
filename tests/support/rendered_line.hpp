// Lines as the instruments of a sound font have them: a demo piece is sounded by FluidSynth, heard, and held against
// what was sounded. A note counts as heard with its very pitch and at most a tenth of a second away.
#pragma once

#include "analyzer/drills/instruments.hpp"
#include "analyzer/model/solo.hpp"
#include "io/audio/heard_line.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

/// An instrument of the table and the program of General MIDI, from 0, that sounds like it.
struct Voice {
  std::string_view name;
  unsigned program = 0;
};
std::span<const Voice> voices();

PitchRange range_of(const Voice& voice);  ///< sounding

struct Rendering {
  std::string font;
  double tempo_bpm = 120.0;
  int cents = 0;           ///< of the tuning, above A4 = 440 Hz
  std::string room = "0";  ///< 1 for FluidSynth's reverberation
  int bars = 8;
  std::optional<double> noise_db{};  ///< white noise so many decibels below the line
};

/// Nothing where lines can be rendered, else what is absent.
std::optional<std::string> absent_for_rendering(const std::string& font);

struct SoundedNote {
  double onset_seconds = 0.0;
  double end_seconds = 0.0;
  int midi = 60;
};

/// The notes of the first bars in the middle of the range, a little uneven, the same every time; the first after a
/// second of silence.
std::vector<SoundedNote> sounded_notes(const Solo& solo, const PitchRange& range, const Rendering& how);

/// The bytes of a WAV file. Throws where FluidSynth fails.
std::string rendered(std::span<const SoundedNote> notes, unsigned program, const Rendering& how);

/// In the range of the instrument alone.
io::HeardLine heard_in(const std::string& wav, const PitchRange& range);

struct HeardScore {
  std::size_t sounded = 0;
  std::vector<bool> right;                 ///< of each note that was heard
  std::vector<double> delays_ms;           ///< of those that are right, in order of size
  [[nodiscard]] double recall() const;     ///< percent
  [[nodiscard]] double precision() const;  ///< percent
};
HeardScore score_of(std::span<const SoundedNote> sounded, std::span<const io::HeardNote> heard);

}  // namespace insideline::tests
