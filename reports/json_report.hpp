// The analysis file. Its fields are fixed by reports/analysis.schema.json; a field
// is added there and here together, and none changes its meaning within a version.
#pragma once

#include <string>

#include "reports/report.hpp"

namespace insideline::reports {

/// UTF-8 text, one note a line. Times are exact fractions of a quarter note, pitches
/// are sounding unless a field says `written`. The same report gives the same bytes.
std::string json_report(const Report& report);

}  // namespace insideline::reports
