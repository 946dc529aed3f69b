#include "cli/program.hpp"

#include "cli/help_format.hpp"

#include <CLI/CLI.hpp>

#include <memory>

namespace insideline::cli {

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

}  // namespace insideline::cli
