// How far behind the beat somebody plays, beat by beat. Nobody keeps one distance for a whole solo, so lateness is a
// hidden quantity that moves slowly; the likeliest course of it is found over the whole line before any note is given
// a place, since all that must be known for it is where notes of any rhythm are frequent.
#pragma once

#include "io/midi/beat_cells.hpp"

#include <span>
#include <vector>

namespace insideline::io {

/// How somebody plays.
struct Manner {
  double off_beat = 0.5;          ///< where in a simple beat the second eighth sounds: 0.5 straight, 2/3 at 2:1
  double spread_seconds = 0.020;  ///< standard deviation of onsets around their place
  std::vector<double> late;       ///< for each beat, in beats: above zero is behind it
};

/// The likeliest swing of the whole line and course of its lateness. `cells` cover the notes and are not empty.
Manner first_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells);

}  // namespace insideline::io
