#include "cli/day.hpp"

#include "reports/text/wording.hpp"

namespace insideline::cli {

std::string not_a_day(const std::string& text) {
  return reports::parsed_day(text) ? std::string{} : "'" + text + "' is no day; write it as in 2026-11-25";
}

}  // namespace insideline::cli
