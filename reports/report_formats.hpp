// The reports that go to a file, each of them one file of this folder and one row here.
#pragma once

#include "reports/report.hpp"

#include <span>
#include <string>

namespace insideline::reports {

struct ReportFormat {
  const char* name;  ///< of the option: "json" is chosen with --json
  const char* what;  ///< one line for the help text
  std::string (*write)(const Report& report);
};

std::span<const ReportFormat> report_formats();

}  // namespace insideline::reports
