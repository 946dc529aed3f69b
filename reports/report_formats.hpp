// The reports that go to a file, each of them one file of this folder and one row here.
#pragma once

#include "reports/report.hpp"

#include <cstdint>
#include <span>
#include <string>

namespace insideline::reports {

enum class FormatPitch : std::uint8_t {
  as_read,  ///< takes a report in any pitch, and keeps to it
  sounding  ///< wants a report at sounding pitch, and writes what the part has beside it
};

struct ReportFormat {
  const char* name;  ///< of the option: "json" is chosen with --json
  const char* what;  ///< one line for the help text
  std::string (*write)(const Report& report);
  FormatPitch pitch = FormatPitch::as_read;
};

std::span<const ReportFormat> report_formats();

}  // namespace insideline::reports
