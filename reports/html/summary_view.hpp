// The summary in words as a part of the page: the sections of the printed summary (reports/text/remarks.hpp).
#pragma once

#include "reports/html/markup.hpp"
#include "reports/report.hpp"

namespace insideline::reports {

Markup summary_view(const Report& report);

/// What was read, in paragraphs.
Markup what_was_read_view(const Report& report);

}  // namespace insideline::reports
