#include "cli/command.hpp"
#include "cli/output.hpp"

#include <array>

namespace insideline::cli {

std::span<const AddCommand> commands() {
  static constexpr std::array table{
      &add_analyze_command, &add_chord_command,   &add_compare_command, &add_drill_command,
      &add_assess_command,  &add_handout_command, &add_survey_command,  &add_merge_command,
  };
  return table;
}

void print_warning(const std::string& message) { write_to_standard_error("insideline: warning: " + message); }

}  // namespace insideline::cli
