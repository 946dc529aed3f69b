// The plots of one solo, each with its table. A plot without anything to show is left out.
#pragma once

#include "reports/html/markup.hpp"
#include "reports/report.hpp"

namespace insideline::reports {

Markup solo_plots(const Report& report);

}  // namespace insideline::reports
