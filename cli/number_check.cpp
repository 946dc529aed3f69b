#include "cli/number_check.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

namespace insideline::cli {

std::string not_between(const std::string& text, double lowest, double highest) {
  double number = 0.0;
  const bool is_number = CLI::detail::lexical_cast(text, number);
  if (is_number && number >= lowest && number <= highest) return {};
  return fmt::format("'{}' is no number from {} to {}", text, lowest, highest);
}

}  // namespace insideline::cli
