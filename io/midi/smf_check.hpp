// Reads the structure of a Standard MIDI File byte by byte and writes a clean one with the same music, which any reader
// understands alike: explicit status bytes, no system exclusives, one conductor track, every track closed. From then on
// nothing need be checked any more.
#pragma once

#include "io/midi/smf_fault.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace insideline::io {

/// Film frames say how long a tick is, but not where the beats are.
enum class SmpteTime : std::uint8_t { refused, beats_are_known };

struct SmfCheckOptions {
  Damage damage = Damage::refused;
  SmpteTime smpte = SmpteTime::refused;
};

/// The kinds of text a track may carry: meta events 1 to 9 of the standard.
struct SmfText {
  int track = 1;  ///< as the file counts its tracks, from 1
  std::uint32_t ticks = 0;
  std::uint8_t kind = 1;  ///< 1 text, 2 copyright, 3 track name, 4 instrument, 5 lyric, 6 marker, 7 cue
  std::string bytes;      ///< in full, in whatever encoding the file has
};

struct CheckedSmf {
  std::string clean;               ///< a file of format 1 whose first track has all tempos and time signatures
  std::vector<int> track_numbers;  ///< of the clean tracks after the first, as the source counts them, from 1
  std::vector<SmfText> texts;      ///< in the order of the source
  std::vector<SmfFinding> findings;
  std::size_t note_count = 0;
};

/// An unusable file gives the reason; so does one that loses data, unless it is to be salvaged.
tl::expected<CheckedSmf, SmfFinding> check_smf(std::string_view bytes, const SmfCheckOptions& options = {});

}  // namespace insideline::io
