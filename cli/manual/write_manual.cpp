// insideline_manual FOLDER VERSION PAGE...: writes the manual pages and the completions into FOLDER. PAGEs are those
// that the build expects; one too many or too few is an error.
#include "cli/command.hpp"
#include "cli/manual/completions.hpp"
#include "cli/manual/manual_page.hpp"
#include "cli/manual/program_text.hpp"
#include "cli/program.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>
#include <string>

namespace insideline::cli {
namespace {

using Files = std::map<std::filesystem::path, std::string>;

Files pages(const ProgramText& program, const std::filesystem::path& folder, const std::string& version) {
  Files files{{folder / "insideline.1", program_page(program, version)}};
  for (const CommandText& command : program.commands)
    files[folder / ("insideline-" + command.name + ".1")] = command_page(program, command, version);
  return files;
}

Files completions(const ProgramText& program, const std::filesystem::path& folder) {
  return {{folder / "insideline.bash", bash_completion(program)},
          {folder / "_insideline", zsh_completion(program)},
          {folder / "insideline.fish", fish_completion(program)}};
}

void expect_pages(const Files& made, const std::set<std::filesystem::path>& expected) {
  for (const auto& [file, text] : made)
    if (!expected.contains(file)) throw std::runtime_error("the build does not expect " + file.string());
  for (const std::filesystem::path& file : expected)
    if (!made.contains(file)) throw std::runtime_error("there is no command for " + file.string());
}

void write(const Files& files) {
  for (const auto& [file, text] : files) {
    std::ofstream stream(file, std::ios::binary);
    stream << text;
    if (!stream.flush()) throw std::runtime_error(file.string() + " cannot be written");
  }
}

void write_manual(const std::filesystem::path& folder, const std::string& version,
                  const std::set<std::filesystem::path>& expected) {
  CLI::App app;
  introduce(app, version);
  for (const Command& command : commands()) command.add(app);
  const ProgramText program = text_of(app);
  const Files made = pages(program, folder, version);
  expect_pages(made, expected);
  write(made);
  write(completions(program, folder));
}

}  // namespace
}  // namespace insideline::cli

int main(int argc, char** argv) {
  if (argc < 3) {
    fmt::print(stderr, "usage: insideline_manual FOLDER VERSION PAGE...\n");
    return 2;
  }
  try {
    insideline::cli::write_manual(argv[1], argv[2], {argv + 3, argv + argc});
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "insideline_manual: {}\n", error.what());
    return 1;
  }
}
