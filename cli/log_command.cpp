// insideline log DB: what a practice log says of one player over the term, or of each in a line.
#include "cli/command.hpp"
#include "cli/day.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "cli/solo_options.hpp"
#include "cli/terminal.hpp"
#include "io/database/practice_log.hpp"
#include "io/read_result.hpp"
#include "reports/practice_log/log_report.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <system_error>
#include <vector>

namespace insideline::cli {
namespace {

struct LogOptions {
  std::string log;
  std::optional<std::string> player;
  std::optional<std::string> from;
  std::optional<std::string> to;
  int one_mistake_in = ReadyBounds{}.from_a_sheet;
  std::optional<std::string> json;
  std::optional<std::string> csv;
  std::optional<std::string> html;
  ColourChoice colour = ColourChoice::automatic;
};

constexpr const char* log_examples =
    "Examples:\n"
    "  insideline log class.log\n"
    "      A line for each player; of a log with one player every take, sheet by sheet.\n"
    "  insideline log class.log --player Anke --html anke.html\n"
    "      One player over the term, and a page with plots.\n"
    "  insideline log class.log --from 2026-09-01 --to 2026-12-18\n"
    "      The takes of one term.\n"
    "  insideline log class.log --csv takes.csv\n"
    "      Every take as a row for a spreadsheet.\n";

/// So many are named where the player who was asked for is not there.
constexpr std::size_t most_named = 10;

std::string days_asked_for(const LogOptions& options) {
  if (!options.to) return "from " + *options.from + " on";
  return options.from ? fmt::format("from {} to {}", *options.from, *options.to) : "up to " + *options.to;
}

[[noreturn]] void refuse_unknown(const LogOptions& options, const std::vector<PlayerProgress>& players) {
  std::string names;
  for (std::size_t i = 0; i < std::min(players.size(), most_named); ++i)
    names += fmt::format("{}'{}'", i == 0 ? "" : ", ", players[i].player);
  if (players.size() > most_named) names += fmt::format(" and {} more", players.size() - most_named);
  throw io::ReadError(io::place_of(options.log),
                      fmt::format("it has no player '{}'; it has {}", *options.player, names));
}

/// `takes` are the oldest first, and not empty. Days are compared as they are written.
void keep_asked_days(const LogOptions& options, std::vector<LoggedTake>& takes) {
  const std::string first = takes.front().day;
  const std::string last = takes.back().day;
  std::erase_if(takes, [&](const LoggedTake& take) {
    return (options.from && take.day < *options.from) || (options.to && take.day > *options.to);
  });
  if (takes.empty())
    throw io::ReadError(io::place_of(options.log), fmt::format("it has no takes {}; its takes are from {} to {}",
                                                               days_asked_for(options), first, last));
}

reports::PracticeLogReport report_of(const LogOptions& options) {
  std::error_code unreachable;
  if (!std::filesystem::is_regular_file(options.log, unreachable))
    throw io::ReadError(io::place_of(options.log), "there is no such practice log; check the name");
  reports::PracticeLogReport report;
  report.log = file_name(options.log);
  report.bound = options.one_mistake_in;
  std::vector<LoggedTake> takes = io::PracticeLog(options.log, io::Access::read).takes();
  if (takes.empty())
    throw io::ReadError(io::place_of(options.log), "it has no takes; `insideline assess` puts them in with --log");
  keep_asked_days(options, takes);
  report.players = progress_of(takes, report.bound);
  if (!options.player) return report;
  const auto asked_for = std::ranges::find(report.players, *options.player, &PlayerProgress::player);
  if (asked_for == report.players.end()) refuse_unknown(options, report.players);
  report.players = {*asked_for};
  return report;
}

/// Every file is complete before the first of them appears; then comes what is printed.
void show_log(const LogOptions& options) {
  if (options.from && options.to && *options.from > *options.to)
    throw CLI::ValidationError("--to", fmt::format("'{}' is before '{}'", *options.to, *options.from));
  Destinations destinations;
  destinations.add("--json", options.json);
  destinations.add("--csv", options.csv);
  destinations.add("--html", options.html);
  destinations.spare_database(options.log);
  const reports::PracticeLogReport report = report_of(options);
  std::vector<PendingFile> files;
  std::string printed = reports::practice_log_text(report, colour_of_standard_output(options.colour));
  const auto write_to = [&](const std::optional<std::string>& destination,
                            std::string (*written)(const reports::PracticeLogReport&)) {
    if (destination && is_standard_output(*destination)) printed = written(report);
    if (destination && !is_standard_output(*destination)) files.emplace_back(*destination, written(report));
  };
  write_to(options.json, reports::practice_log_json);
  write_to(options.csv, reports::practice_log_csv);
  write_to(options.html, reports::practice_log_page);
  commit_all(files);
  write_to_standard_output(printed);
}

void add_log_options(CLI::App& command, LogOptions& options) {
  const std::string shown = "What is shown";
  command.add_option("--player", options.player, "Only this player, take by take")->option_text("NAME")->group(shown);
  command
      .add_option("--one-mistake-in", options.one_mistake_in,
                  "Ready is surely fewer than one mistake in so many notes; default 8")
      ->check(CLI::Range(2, 1000))
      ->option_text("NOTES")
      ->group(shown);
  command.add_option("--from", options.from, "Only takes of this day and later")
      ->check(CLI::Validator(not_a_day, ""))
      ->option_text("YYYY-MM-DD")
      ->group(shown);
  command.add_option("--to", options.to, "Only takes of this day and earlier")
      ->check(CLI::Validator(not_a_day, ""))
      ->option_text("YYYY-MM-DD")
      ->group(shown);
  const std::string written = "What is written";
  command.add_option("--json", options.json, "Write everything for other programs; - is standard output")
      ->option_text("FILE")
      ->group(written);
  command.add_option("--csv", options.csv, "Write a table with one row a take; - is standard output")
      ->option_text("FILE")
      ->group(written);
  command.add_option("--html", options.html, "Write a page with plots; - is standard output")
      ->option_text("FILE")
      ->group(written);
  add_colour_option(command, options.colour, written);
}

}  // namespace

void add_log_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand("log", "Show a practice log: one player over the term, or each in a line");
  const auto options = std::make_shared<LogOptions>();
  command->add_option("DB", options->log, "The practice log that `assess --log` keeps")->required();
  add_log_options(*command, *options);
  command->footer(log_examples);
  command->callback([options] { show_log(*options); });
}

}  // namespace insideline::cli
