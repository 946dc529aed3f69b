// insideline merge DB... -o DB: the databases of several shards into one.
#include "cli/command.hpp"
#include "cli/output.hpp"
#include "io/database/collection.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace insideline::cli {
namespace {

struct MergeOptions {
  std::vector<std::string> databases;
  std::string merged;
};

constexpr const char* merge_examples =
    "Example:\n"
    "  insideline merge part-1.db part-2.db part-3.db -o solos.db\n"
    "      What one survey over everything would have made.\n";

void run(const MergeOptions& options) {
  std::error_code ignored;
  for (const std::string& database : options.databases)
    if (std::filesystem::equivalent(database, options.merged, ignored))
      throw CLI::ValidationError("--output", options.merged + " is one of the databases to be put together");
  for (const std::string& database : options.databases)
    if (!std::filesystem::is_regular_file(database))
      throw io::ReadError(io::place_of(database), "there is no such database; check the name");
  std::string text;
  io::Collection merged(options.merged);
  for (const std::string& database : options.databases)
    text += fmt::format("{}: new solos: {}\n", database, merged.merge(database));
  merged.finish();
  text += fmt::format("{} has {} solos.\n", options.merged, merged.solos().size());
  write_to_standard_output(text);
}

}  // namespace

void add_merge_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand("merge", "Put the databases of several surveys together");
  const auto options = std::make_shared<MergeOptions>();
  command->add_option("DB", options->databases, "The databases that surveys made")->required();
  command
      ->add_option("-o,--output", options->merged,
                   "The database to put them into; made if it is not there, else added to")
      ->required()
      ->option_text("DB");
  command->footer(merge_examples);
  command->callback([options] { run(*options); });
}

}  // namespace insideline::cli
