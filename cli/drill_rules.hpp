// Which options of `drill` go together. One table: an option that would have no effect beside another, or in a file of
// that kind, is refused, and the reason is said.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace insideline::cli {

enum class RuleKind : std::uint8_t {
  not_beside,  ///< the option is refused beside each of the others
  needs_one,   ///< the option is refused unless one of the others is there
};

struct DrillRule {
  std::string_view option;
  RuleKind kind = RuleKind::not_beside;
  /// Parted by blanks: options, options with a value as in --rhythm=triplets, endings as .mid.
  std::string_view others;
  std::string_view reason;    ///< goes on after "--option: "
  std::string_view unless{};  ///< an option beside which the rule does not hold
};

std::span<const DrillRule> drill_rules();

/// Throws CLI::ValidationError for the first rule that the command line breaks. `destination` is the sheet.
void check_drill_rules(const CLI::App& command, const std::string& destination);

}  // namespace insideline::cli
