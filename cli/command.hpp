// How a command is added: one file, cli/<name>_command.cpp, with one function that
// adds its options to the program and says, in a callback, what it does. The table
// in commands.cpp lists them in the order of the help text.
//
// A callback returns when the work is done. It throws io::ReadError where an input
// cannot be used, io::DatabaseError where a database cannot, OutputError where an output cannot be written,
// EngravingError where no page can be made, SoundError where no sound can (all exit 1), and CLI::ValidationError where
// options contradict each other (exit 2). `main` prints.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace insideline::cli {

struct Command {
  std::string_view name;
  void (*add)(CLI::App& program);
};

std::span<const Command> commands();

void add_analyze_command(CLI::App& program);
void add_assess_command(CLI::App& program);
void add_changes_command(CLI::App& program);
void add_chord_command(CLI::App& program);
void add_compare_command(CLI::App& program);
void add_drill_command(CLI::App& program);
void add_handout_command(CLI::App& program);
void add_log_command(CLI::App& program);
void add_merge_command(CLI::App& program);
void add_survey_command(CLI::App& program);

/// `insideline: warning: ...` on standard error.
void print_warning(const std::string& message);

}  // namespace insideline::cli
