// What the program is called and says of itself, and how it takes a command line.
#pragma once

#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace insideline::cli {

enum ExitStatus : int { input_unusable = 1, command_line_wrong = 2 };

/// Says `message` on standard error, and gives `status` back.
int report_error(std::string_view message, ExitStatus status);

/// Gives `program` its name, its help and its `--version`.
void introduce(CLI::App& program, const std::string& version);

/// Does what the command line asks for and gives the exit status. A wrong command line is told on standard error, a
/// wrong input is thrown.
int follow_command_line(int argc, char** argv);

}  // namespace insideline::cli
