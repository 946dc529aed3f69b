// A page for the screen: one file that explains a solo at a glance. The summary in words, the line map, plots, and
// the line to listen to.
#pragma once

#include "reports/report.hpp"

#include <span>
#include <string>

namespace insideline::reports {

std::string html_report(const Report& report);

/// The same with the engraved score in it: one SVG file a system, in order.
std::string html_report(const Report& report, std::span<const std::string> engraved);

}  // namespace insideline::reports
