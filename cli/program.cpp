#include "cli/program.hpp"

#include "cli/command.hpp"
#include "cli/help_format.hpp"
#include "cli/output.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <string>
#include <string_view>

namespace insideline::cli {
namespace {

/// Only the command that is asked for gets its options, so that starting does not pay for the others. Where none is
/// named at once, all are added, for the help and for the error message.
void add_commands(CLI::App& program, std::string_view asked) {
  const auto found = std::ranges::find(commands(), asked, &Command::name);
  if (found != commands().end()) return found->add(program);
  for (const Command& command : commands()) command.add(program);
}

}  // namespace

int report_error(std::string_view message, ExitStatus status) {
  write_to_standard_error(fmt::format("insideline: error: {}", message));
  return status;
}

void introduce(CLI::App& program, const std::string& version) {
  program.name("insideline");
  program.description("Shows what an improvised line makes of its chord changes.");
  program.set_version_flag("--version", "insideline " + version, "Print the version and exit");
  program.set_help_flag("-h,--help", "Print this help and exit");
  program.require_subcommand(0, 1);
  program.formatter(std::make_shared<HelpFormat>());
  program.footer(
      "Example:\n"
      "  insideline analyze solo.musicxml --changes tune.changes\n\n"
      "`insideline COMMAND --help` explains a command and shows more examples.");
}

int follow_command_line(int argc, char** argv) {
  CLI::App program;
  introduce(program, INSIDELINE_VERSION);
  add_commands(program, argc > 1 ? argv[1] : std::string_view{});
  try {
    program.parse(argc, argv);
    if (program.get_subcommands().empty()) throw CLI::RequiredError("A command");
    return EXIT_SUCCESS;
  } catch (const CLI::Success& request) {
    return program.exit(request);
  } catch (const CLI::ParseError& error) {
    const auto given = program.get_subcommands();
    const std::string command = given.empty() ? "" : given.front()->get_name() + " ";
    return report_error(fmt::format("{}\n  `insideline {}--help` shows how it is used", error.what(), command),
                        command_line_wrong);
  }
}

}  // namespace insideline::cli
