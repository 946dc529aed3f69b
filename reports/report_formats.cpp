#include "reports/report_formats.hpp"

#include "reports/csv_report.hpp"
#include "reports/html/html_report.hpp"
#include "reports/json_report.hpp"

namespace insideline::reports {

std::span<const ReportFormat> report_formats() {
  static constexpr ReportFormat table[] = {
      {"json", "Write the analysis file; - is standard output", json_report, FormatPitch::sounding},
      {"csv", "Write a table with one row a note; - is standard output", csv_report},
      {"html", "Write a page to look at and to listen to; - is standard output", html_report},
  };
  return table;
}

}  // namespace insideline::reports
