// Writes a line as a MIDI file: one track with title, tempo, meters, keys and the chords as markers, one with the
// notes.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <string>

namespace insideline::io {

enum class MidiPitch : std::uint8_t { sounding, written };

struct MidiWriteOptions {
  double tempo_bpm = 120.0;  ///< where the solo states none; quarter notes a minute, > 0
  MidiPitch pitch = MidiPitch::sounding;
};

/// A format-1 file at 960 ticks a quarter. Bars that differ from their meter get a time signature of their own length,
/// as notation programs write a pickup. Grace notes take their time from the note before.
/// `solo.bars` is not empty. Throws std::runtime_error where the file cannot be made.
std::string write_midi(const Solo& solo, const Harmony& harmony = {}, const MidiWriteOptions& options = {});

}  // namespace insideline::io
