// The best choice among the runs that could be reported.
#pragma once

#include "analyzer/arpeggio_runs.hpp"

#include <vector>

namespace insideline {

/// The runs of the best set, in order: weighted interval scheduling, exact, n log n.
/// Most members first, then most members of the chord below, then the greater sum of squared lengths (longer runs),
/// then fewest ornaments, then more complete runs, then fewest extensions: 5-3-1 of C7b9 rather than b9-5-3. Two runs
/// share no note but one that ends the one and may begin the other.
std::vector<Run> best_runs(std::vector<Run> candidates);

}  // namespace insideline
