// Figures that come again: digital patterns, sequences, riffs, and the vocabulary of the blues and of the bebop scales.
// All indices are into Solo::notes; `last` is included.
#pragma once

#include "analyzer/model/changes.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline {

/// Four even notes on the steps of one chord's scale: 1 2 3 5.
struct DigitalPattern {
  std::size_t first = 0;
  std::size_t last = 0;
  std::size_t chord = 0;  ///< index into Harmony::chords
  std::string steps;      ///< "1 2 3 5", "1 2 b3 5"
};

/// The same shape again and again, each time moved the same way.
struct Sequence {
  std::size_t first = 0;
  std::size_t last = 0;
  int notes = 0;        ///< of the shape
  int times = 0;        ///< whole shapes
  bool up = false;      ///< the way it moves
  bool thirds = false;  ///< a scale in thirds
};

/// One place of a riff, and what is changed there against its first place.
struct RiffPlace {
  std::size_t first = 0;
  std::size_t last = 0;
  int bar = 1;
  int moved = 0;          ///< semitones from the first place to this one, by the first note
  bool same_beat = true;  ///< it begins at the same place of the bar
  bool fitted = false;    ///< a move is a half step wider or narrower: the same shape, fitted to another chord
};

/// A figure that is played three times or more, no more than four bars from one time to the next.
struct Riff {
  int notes = 0;                  ///< of the figure
  std::vector<RiffPlace> places;  ///< in order
};

/// A lowered third or seventh over a chord that has, or would have, the major one; a lowered fifth beside the natural
/// one.
struct BlueNote {
  std::size_t note = 0;
  std::size_t chord = 0;  ///< index into Harmony::chords
  int degree = 3;         ///< 3, 5 or 7
};

struct PentatonicRun {
  std::size_t first = 0;
  std::size_t last = 0;
  int root = 0;                 ///< pitch class
  bool has_blue_fifth = false;  ///< between 4 and 5: a run through the blues scale
};

/// The half step that makes eight notes of a scale of seven, so that chord tones stay on the beat.
struct AddedHalfStep {
  std::size_t note = 0;
  std::size_t chord = 0;  ///< index into Harmony::chords
};

struct Patterns {
  std::vector<DigitalPattern> digital;
  std::vector<Sequence> sequences;
  std::vector<Riff> riffs;  ///< what fills most of the line first; no two share a note
  std::vector<BlueNote> blue_notes;
  std::vector<PentatonicRun> pentatonic_runs;
  std::vector<AddedHalfStep> added_half_steps;
};

}  // namespace insideline
