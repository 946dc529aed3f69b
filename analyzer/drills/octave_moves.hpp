// A line that is too wide for its range in one key and yet the same line: some of its notes an octave up or down, moved
// where that does not spoil what the sheet practises. That a player does so where the instrument ends is common
// practice, no source; where the octave may change, and how much of a line may move, are our own choices.
#pragma once

#include "analyzer/drills/drill.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// Whether the octave may change right before each note of the sheet: between two arpeggios or cells; in a line that
/// leads from chord to chord, only over one chord, so that every way into the next stays as it is. Guide tones have no
/// such place.
std::vector<bool> octave_joints(const Drill& drill, const DrillSettings& settings);

struct OctaveFit {
  std::vector<int> octaves;  ///< by note: -1, 0 or 1
  int cost = 0;              ///< the notes that move, and the semitones of each new leap; 0 where none moves
};

/// The cheapest way to bring the notes into the range; none where there is no way, or where more than a third of the
/// notes would move: that is no longer the same line.
std::optional<OctaveFit> fit_by_octaves(std::span<const int> midi, const std::vector<bool>& joints,
                                        const PitchRange& range);

}  // namespace insideline
