// A hearing file from an analysis, for editing: what the program hears, a line a note behind "#", and what is set by
// hand already as it was said. The words are those that io/hearing reads.
#pragma once

#include "reports/report.hpp"

#include <cstdint>
#include <string>

namespace insideline::reports {

enum class HearingLines : std::uint8_t { all, unsure };

/// Below this a reading is unsure: one in four such is another.
constexpr double sure_enough = 0.75;

/// Read again, the text gives the analysis that it comes from. `unsure`: of the notes that are not set by hand only
/// those whose reading is less than `sure_enough`.
std::string hearing_text(const Report& report, HearingLines lines = HearingLines::all);

/// How many readings were set by hand.
int set_by_hand(const Analysis& analysis);

}  // namespace insideline::reports
