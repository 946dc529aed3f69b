// What each note of a practice sheet is over its chord, to be written under it and said aloud.
#pragma once

#include "analyzer/drills/drill.hpp"

#include <optional>
#include <vector>

namespace insideline {

struct DrillDegree {
  Degree degree;
  bool of_chord = true;  ///< false: a note between, such as one that encloses a third
};

/// One for each note; none where no chord sounds. In a cell a note has the number that was asked for: 2 and b6, where
/// elsewhere it is 9 and b13.
std::vector<std::optional<DrillDegree>> degrees_of(const Drill& drill, const DrillSettings& settings);

}  // namespace insideline
