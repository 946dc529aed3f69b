// The program: its commands, and how it ends. Everything that goes wrong arrives here.
#include "cli/command.hpp"
#include "cli/engraver.hpp"
#include "cli/output.hpp"
#include "cli/program.hpp"
#include "cli/synthesizer.hpp"
#include "io/database/statement.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <malloc.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <new>
#include <stdexcept>
#include <string>
#include <string_view>

namespace insideline::cli {
namespace {

enum ExitStatus : int { done = 0, input_unusable = 1, command_line_wrong = 2 };

int report_error(std::string_view message, ExitStatus status) {
  write_to_standard_error(fmt::format("insideline: error: {}", message));
  return status;
}

/// Only the command that is asked for gets its options, so that starting does not pay for the others. Where none is
/// named at once, all are added, for the help and for the error message.
void add_commands(CLI::App& program, std::string_view asked) {
  const auto found = std::ranges::find(commands(), asked, &Command::name);
  if (found != commands().end()) return found->add(program);
  for (const Command& command : commands()) command.add(program);
}

/// What one solo or one step of the work needed is there for the next. Given back, each page of it would be cleared and
/// counted anew by the kernel, a hundred and more a solo. A refusal changes no result.
void keep_memory() {
  constexpr int mebibyte = 1 << 20;
  constexpr int kept_bytes = 64 * mebibyte;
  constexpr int largest_block_bytes = 32 * mebibyte;  // more is not taken
  ::mallopt(M_TRIM_THRESHOLD, kept_bytes);
  ::mallopt(M_MMAP_THRESHOLD, largest_block_bytes);
}

int run(int argc, char** argv) {
  CLI::App program;
  introduce(program, INSIDELINE_VERSION);
  add_commands(program, argc > 1 ? argv[1] : std::string_view{});
  try {
    program.parse(argc, argv);
    if (program.get_subcommands().empty()) throw CLI::RequiredError("A command");
    return done;
  } catch (const CLI::Success& request) {
    return program.exit(request);
  } catch (const CLI::ParseError& error) {
    const auto given = program.get_subcommands();
    const std::string command = given.empty() ? "" : given.front()->get_name() + " ";
    return report_error(fmt::format("{}\n  `insideline {}--help` shows how it is used", error.what(), command),
                        command_line_wrong);
  }
}

}  // namespace
}  // namespace insideline::cli

int main(int argc, char** argv) {
  using insideline::cli::input_unusable;
  using insideline::cli::report_error;
  insideline::cli::reserve_standard_streams();
  insideline::cli::keep_memory();
  std::signal(SIGXFSZ, SIG_IGN);  // a file that may not grow is an error like a full disk
  try {
    return insideline::cli::run(argc, argv);
  } catch (const insideline::io::ReadError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::io::DatabaseError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::cli::OutputError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::cli::EngravingError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::cli::SoundError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const std::filesystem::filesystem_error& error) {
    return report_error(fmt::format("{}: cannot be reached: {}", error.path1().string(), error.code().message()),
                        input_unusable);
  } catch (const std::overflow_error& error) {
    return report_error(fmt::format("a time in the input is too long or too finely divided ({})", error.what()),
                        input_unusable);
  } catch (const std::bad_alloc&) {
    return report_error("the input needs more memory than there is", input_unusable);
  } catch (const std::exception& error) {
    return report_error(fmt::format("this should not happen, please report it: {}", error.what()), input_unusable);
  }
}
