// The runs through one chord that could be reported, and the best choice among them.
// Runs may overlap: a ninth can be a member of one and the approach note of another.
#pragma once

#include "analyzer/arpeggios.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace insideline {

/// All indices are into HeardLine::notes.
struct Run {
  std::vector<std::size_t> members;    ///< at least three different ones, in order
  std::vector<std::size_t> ornaments;  ///< between them
  bool complete = false;               ///< every tone of the chord is among the members
};

/// Every run as long as it goes, plain and ornamented, and the shorter pieces that remain
/// of a run where another one takes some of its notes. `stacks` run parallel to the stretches.
std::vector<Run> candidate_runs(const HeardLine& line, std::span<const Stack> stacks,
                                std::span<const NoteLabel> labels);

/// The runs of the best set, in order: weighted interval scheduling, exact, n log n.
/// Most members first, then the greater sum of squared lengths (longer runs), then more
/// complete runs.
std::vector<Run> best_runs(std::vector<Run> candidates);

}  // namespace insideline
