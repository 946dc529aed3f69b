#include "cli/command.hpp"
#include "cli/output.hpp"

#include <array>

namespace insideline::cli {

std::span<const Command> commands() {
  static constexpr std::array table{
      Command{"analyze", add_analyze_command}, Command{"chord", add_chord_command},
      Command{"compare", add_compare_command}, Command{"drill", add_drill_command},
      Command{"assess", add_assess_command},   Command{"log", add_log_command},
      Command{"handout", add_handout_command}, Command{"survey", add_survey_command},
      Command{"merge", add_merge_command},     Command{"changes", add_changes_command},
  };
  return table;
}

void print_warning(const std::string& message) { write_to_standard_error("insideline: warning: " + message); }

}  // namespace insideline::cli
