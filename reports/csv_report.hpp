// One row a note, for a spreadsheet or a statistics program. Quoting and line ends
// as in RFC 4180. Times are decimal quarters here, because a spreadsheet takes "1/2"
// for a date; the exact fractions are in the analysis file.
#pragma once

#include <string>

#include "reports/report.hpp"

namespace insideline::reports {

std::string csv_report(const Report& report);

}  // namespace insideline::reports
