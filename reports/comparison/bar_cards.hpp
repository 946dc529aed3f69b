// The same bars side by side on the page: for each bar a card with the two lines under each other on one time axis, the
// notes in which they differ marked, and each line to be heard.
#pragma once

#include "reports/comparison/beside.hpp"
#include "reports/comparison/comparison_report.hpp"
#include "reports/html/markup.hpp"

#include <string>
#include <vector>

namespace insideline::reports {

/// All pairs, the most different bars first. Needs `line_map_style`, `player_style` and those of side_by_side.
Markup bar_cards(const ComparisonReport& report, const std::vector<BesideFirst>& pairs);

/// What the script of the page plays: each file once.
std::string bar_cards_data(const ComparisonReport& report);

}  // namespace insideline::reports
