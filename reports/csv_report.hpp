// One row a note, for a spreadsheet or a statistics program. Quoting and line ends
// as in RFC 4180. Times are decimal quarters here, because a spreadsheet takes "1/2"
// for a date; the exact fractions are in the analysis file.
#pragma once

#include <string>
#include <vector>

#include "reports/report.hpp"

namespace insideline::reports {

std::string csv_report(const Report& report);

/// A text from a file (its name, a symbol) that begins like a formula gets an apostrophe, which makes a spreadsheet
/// show it instead of computing it.
std::string not_a_formula(const std::string& text);

/// One line of a table, cells quoted where they must be.
std::string csv_row(const std::vector<std::string>& cells);

}  // namespace insideline::reports
