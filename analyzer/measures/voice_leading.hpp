// The least motion between two chords when every voice moves.
// Idea and measure: Tymoczko, The Geometry of Musical Chords, Science 313 (2006) 72-74.
#pragma once

#include "analyzer/model/chord.hpp"

#include <vector>

namespace insideline {

/// One voice from a tone of the first chord to a tone of the second.
struct VoiceMove {
  NoteName from;
  NoteName to;
  int semitones = 0;  ///< the shorter way round, -5..6
  friend bool operator==(const VoiceMove&, const VoiceMove&) = default;
};

struct VoiceLeading {
  std::vector<VoiceMove> moves;  ///< in the order of the first chord's tones
  int semitones = 0;             ///< sum of the sizes of the moves
  int pairings = 0;              ///< how many pairings are equally good
};

/// Pairs every tone of the smaller chord with a different tone of the other, so that the
/// voices move least. Among equal pairings the first in the order of the tones is given.
/// Each chord has at most seven tones.
VoiceLeading least_motion(const Chord& from, const Chord& to);

/// The shorter way from one pitch class to another: -5..6; a tritone goes up.
int shortest_way(int from_pitch_class, int to_pitch_class);

}  // namespace insideline
