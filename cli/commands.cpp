#include <array>
#include <cstdio>

#include "cli/command.hpp"

namespace insideline::cli {

std::span<const AddCommand> commands() {
  static constexpr std::array table{
      &add_analyze_command, &add_chord_command,   &add_compare_command, &add_drill_command,
      &add_assess_command,  &add_handout_command, &add_survey_command,  &add_merge_command,
  };
  return table;
}

void print_warning(const std::string& message) { std::fprintf(stderr, "insideline: warning: %s\n", message.c_str()); }

}  // namespace insideline::cli
