// How far apart two solos stand, at a glance: for each figure a point for the difference, and a bar as long as the
// difference may be (95 %). Where the bar stays clear of the line in the middle, the difference is clear.
#pragma once

#include "reports/comparison/comparison_report.hpp"
#include "reports/html/markup.hpp"

#include <cstddef>

namespace insideline::reports {

/// Main figures that are shares, of solo `other` (1 or above) against the first; empty where none was judged.
Markup interval_plot(const ComparisonReport& report, std::size_t other);

}  // namespace insideline::reports
