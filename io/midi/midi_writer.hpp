// Writes a line as a MIDI file: one track with title, tempo, meters, keys and the chords as markers, one with the
// notes.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

enum class MidiPitch : std::uint8_t { sounding, written };

struct AccompanyingNote {
  Beats onset;
  Beats duration;  ///< > 0
  int midi = 60;
  unsigned velocity = 64;  ///< 1..127
};

/// A track that sounds with the line.
struct AccompanyingTrack {
  std::string name;
  unsigned channel = 1;             ///< 0..15; the line is on 0
  std::optional<unsigned> program;  ///< 0..127; none for percussion
  std::vector<AccompanyingNote> notes;
};

/// From here on this fast.
struct TempoStep {
  Beats at;
  double bpm = 120.0;  ///< quarter notes a minute, > 0
};

struct MidiWriteOptions {
  double tempo_bpm = 120.0;  ///< where the solo states none; quarter notes a minute, > 0
  MidiPitch pitch = MidiPitch::sounding;
  std::vector<AccompanyingTrack> accompaniment{};  ///< behind the line, in this order
  std::vector<TempoStep> tempos{};                 ///< in order, from the first bar on; they win over all others
};

/// A format-1 file at 960 ticks a quarter. Bars that differ from their meter get a time signature of their own length,
/// as notation programs write a pickup. Grace notes take their time from the note before.
/// `solo.bars` is not empty. Throws std::runtime_error where the file cannot be made.
std::string write_midi(const Solo& solo, const Harmony& harmony = {}, const MidiWriteOptions& options = {});

}  // namespace insideline::io
