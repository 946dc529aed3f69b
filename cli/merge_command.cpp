// insideline merge DB... -o DB: the databases of several shards into one.
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "io/database/merge.hpp"
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
  Destinations destinations;
  destinations.add_database("--output", options.merged);
  for (const std::string& database : options.databases) destinations.spare_database(database);
  for (const std::string& database : options.databases)
    if (!std::filesystem::is_regular_file(database))
      throw io::ReadError(io::place_of(database), "there is no such database; check the name");
  const io::Merged merged = io::merge_databases(options.databases, options.merged);
  std::string text;
  for (std::size_t part = 0; part < options.databases.size(); ++part)
    text += fmt::format("{}: new solos: {}\n", options.databases[part], merged.added[part]);
  text += fmt::format("{} has {} solos.\n", options.merged, merged.solos);
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
