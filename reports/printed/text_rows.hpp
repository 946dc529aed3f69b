// The rows of text above and below the staff: chord symbols, and degrees with the arrows
// of the connections. They count their own time, so that rests, ties and tuplets cannot shift them.
#pragma once

#include "analyzer/notation/rhythm_writing.hpp"
#include "reports/printed/line_plan.hpp"
#include "reports/printed/marks.hpp"
#include "reports/printed/sheet.hpp"

#include <span>
#include <string>

namespace insideline::reports {

/// `bars` are those of the excerpt, in both.
std::string chord_row(const Sheet& sheet, std::span<const WrittenBar> bars);
std::string degree_row(const Sheet& sheet, std::span<const WrittenBar> bars, const LinePlan& plan, const Marks& marks);

/// The row below the degrees: what the non-chord tones do, "pass", "encl".
std::string motion_row(const Sheet& sheet, std::span<const WrittenBar> bars, const Marks& marks);

}  // namespace insideline::reports
