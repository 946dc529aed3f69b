// insideline survey FOLDER...: a whole collection into one database and one table.
#include "cli/collection_report.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "cli/survey_pages.hpp"
#include "cli/survey_run.hpp"
#include "cli/terminal.hpp"
#include "io/read_result.hpp"
#include "io/solo_files.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <charconv>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::cli {
namespace {

constexpr unsigned most_jobs = 1024;
constexpr unsigned most_shards = 1'000'000;

struct SurveyCommand {
  SurveyOptions survey;
  std::string database;  ///< empty: one that is gone at the end
  std::optional<std::string> csv;
  std::optional<std::string> html;
  std::optional<std::string> pages;  ///< the folder for a page of each solo
  bool report = false;
  bool fail_on_error = false;
  GroupBy group_by = GroupBy::player;
  ColourChoice colour = ColourChoice::automatic;
};

constexpr const char* survey_examples =
    "Examples:\n"
    "  insideline survey solos --db solos.db\n"
    "      Every solo below the folder; run it again after adding some: only those are analysed.\n"
    "  insideline survey --report --db solos.db --html page.html\n"
    "      What the collection is like, on the screen and as a page.\n"
    "  insideline survey solos --html solos.html --pages pages\n"
    "      A page of the collection with links to a page of each solo.\n"
    "  insideline analyze mine.musicxml --against solos.db\n"
    "      Where one solo stands among them.\n"
    "  insideline survey solos --shard 3/16 --db part-3.db\n"
    "      The third of sixteen parts, for several machines; `insideline merge` puts them together.\n";

std::optional<Shard> parsed_shard(std::string_view text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto number = [](std::string_view digits) -> unsigned {
    unsigned value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return error == std::errc{} && end == digits.data() + digits.size() ? value : 0;
  };
  const Shard shard{number(text.substr(0, slash)), number(text.substr(slash + 1))};
  if (shard.number < 1 || shard.number > shard.of || shard.of > most_shards) return std::nullopt;
  return shard;
}

void check(const SurveyCommand& options) {
  if (options.survey.folders.empty() && options.pages)
    throw CLI::ValidationError("--pages", "needs a FOLDER to survey: the pages are made from the files of the solos");
  if (options.survey.folders.empty() && !(options.report || options.html || options.csv))
    throw CLI::RequiredError("FOLDER");
  if (options.survey.folders.empty() && options.database.empty())
    throw CLI::ValidationError("--report", "needs --db, the database that a survey made, or a FOLDER to survey");
  if (options.survey.folders.empty() && !std::filesystem::exists(options.database))
    throw io::ReadError(io::place_of(options.database),
                        "there is no such database; make it with `insideline survey FOLDER --db FILE`");
  for (const std::string& folder : options.survey.folders)
    if (!std::filesystem::exists(folder))
      throw io::ReadError(io::place_of(folder), "there is no such folder; check its name");
}

using PageFiles = std::map<std::string, std::string>;  // by the path of the solo

/// Throws before anything is written. A link that was not followed is spared like the file that it leads to.
void check_destinations(const SurveyCommand& options, const SurveyedFiles& files, const PageFiles& pages) {
  Destinations destinations;
  if (!options.database.empty()) destinations.add_database("--db", options.database);
  destinations.add("--csv", options.csv);
  destinations.add("--html", options.html);
  for (const auto& [solo, page] : pages) destinations.add("--pages", page);
  SoloOptions reading = options.survey.reading;
  for (const SurveyedFile& file : files.found) {
    reading.solo = file.path;
    destinations.spare_all_of(reading);
  }
  for (const reports::FailedFile& file : files.unreachable) destinations.spare(file.path);
  for (const std::string& link : files.links_out) destinations.spare(link);
  destinations.spare(reading.changes);
  destinations.spare(reading.beats_file);
}

std::string database_name(const SurveyCommand& options) {
  return std::filesystem::path(options.database).filename().string();
}

/// A part says in one line how its work went; what the collection is like is told of the whole.
bool is_part(const SurveyCommand& options) { return options.survey.shard.of > 1 && !options.report; }

std::string part_name(const SurveyCommand& options) {
  return fmt::format("Part {} of {}", options.survey.shard.number, options.survey.shard.of);
}

/// Each page is there whole before the next is made.
void write_pages(const SurveyCommand& options, io::Collection& collection, const PageFiles& pages) {
  std::size_t done = 0;
  for (const io::ListedSolo& solo : collection.solos()) {
    if (const auto page = pages.find(solo.place.path); page != pages.end())
      write_solo_page(options.survey, page->first, page->second);
    show_progress("survey: pages", ++done, pages.size() + 1);
  }
  show_progress("survey: pages", 1, 1);
}

reports::CollectionReport report_with_links(const SurveyCommand& options, io::Collection& collection,
                                            const PageFiles& pages) {
  reports::CollectionReport report =
      collection_report(collection, database_name(options), options.group_by, Detail::solos_with_values);
  for (reports::SurveyedSolo& solo : report.solos)
    if (const auto page = pages.find(solo.path); page != pages.end())
      solo.page = link_between(*options.html, page->second);
  return report;
}

void write_results(const SurveyCommand& options, io::Collection& collection, const PageFiles& pages,
                   std::string printed) {
  std::vector<PendingFile> files;
  const auto deliver = [&](const std::string& destination, std::string text) {
    if (is_standard_output(destination))
      printed = std::move(text);
    else
      files.emplace_back(destination, text);
  };
  if (options.csv) deliver(*options.csv, collection_csv(collection));
  if (options.html) deliver(*options.html, reports::collection_page(report_with_links(options, collection, pages)));
  commit_all(files);
  write_to_standard_output(printed);
}

/// Exit status 1 asked for by --fail-on-error.
void run(const SurveyCommand& options) {
  check(options);
  const bool only_read = options.survey.folders.empty();
  const SurveyedFiles files = files_of(options.survey);
  const PageFiles pages = options.pages ? page_files(options.survey, files, *options.pages) : PageFiles{};
  check_destinations(options, files, pages);
  io::Collection collection(options.database, only_read ? io::Access::read : io::Access::write);
  std::string printed;
  std::size_t failed = 0;
  if (!only_read) {
    const reports::SurveyWork work = survey(options.survey, files, collection);
    failed = work.failed.size();
    collection.finish();
    printed = is_part(options) ? reports::part_work_text(work, part_name(options), collection.totals().solos)
                               : reports::survey_work_text(work) + "\n";
  }
  const auto depth = options.report ? reports::Depth::everything : reports::Depth::main_figures;
  if (!is_part(options))
    printed += reports::collection_text(collection_report(collection, database_name(options), options.group_by,
                                                          options.report ? Detail::solos : Detail::totals),
                                        depth, colour_of_standard_output(options.colour));
  write_pages(options, collection, pages);
  write_results(options, collection, pages, std::move(printed));
  if (failed > 0 && options.fail_on_error)
    throw io::ReadError(io::place_of("survey"),
                        fmt::format("{} could not be used; the list is above",
                                    failed == 1 ? "1 file" : std::to_string(failed) + " files"));
}

void add_work_options(CLI::App& command, SurveyCommand& options) {
  const std::string group = "How it is done";
  command.add_option("--db", options.database, "The database; made if it is not there, else brought up to date")
      ->option_text("FILE")
      ->group(group);
  command.add_option("--jobs", options.survey.jobs, "Solos at a time; default: as many as the machine has cores")
      ->check(CLI::Range(1U, most_jobs))
      ->option_text("N")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--shard", [&options](const std::string& text) { options.survey.shard = *parsed_shard(text); },
          "Only one of N equal parts, so that several machines can share the work")
      ->check(CLI::Validator(
          [](const std::string& text) {
            return parsed_shard(text) ? std::string{} : "'" + text + "' is not a part such as 3/16";
          },
          ""))
      ->option_text("I/N")
      ->group(group);
  command.add_flag("--again", options.survey.analyse_again, "Analyse what is stored and unchanged as well")
      ->group(group);
  command
      .add_flag_callback(
          "--through-links", [&options] { options.survey.links_out = io::LinksOut::followed; },
          "Follow symbolic links out of FOLDER, too; otherwise they are named and left out")
      ->group(group);
  command.add_flag("--fail-on-error", options.fail_on_error, "End with 1 if a file could not be used, for scripts")
      ->group(group);
}

void add_output_options(CLI::App& command, SurveyCommand& options) {
  const std::string group = "What is written";
  command
      .add_flag("--report", options.report,
                "Print everything: all figures, player by player, solos that stand apart, cells and arpeggios")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--by",
          [&options](const std::string& word) {
            options.group_by = word == "folder" ? GroupBy::folder : GroupBy::player;
          },
          "Whose solos belong together: player (the first folder below FOLDER, the default) or folder (its own)")
      ->check(CLI::IsMember({"player", "folder"}))
      ->option_text("player|folder")
      ->group(group);
  command.add_option("--csv", options.csv, "Write a table with one row a solo; - is standard output")
      ->option_text("FILE")
      ->group(group);
  command.add_option("--html", options.html, "Write a page with plots; - is standard output")
      ->option_text("FILE")
      ->group(group);
  command
      .add_option("--pages", options.pages,
                  "Write the page of each solo into this folder, too; the page of --html leads to them")
      ->option_text("FOLDER")
      ->group(group);
  add_colour_option(command, options.colour, group);
}

}  // namespace

void add_survey_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("survey", "Analyse every solo below a folder, into one table and one database");
  const auto options = std::make_shared<SurveyCommand>();
  command->add_option("FOLDER", options->survey.folders,
                      "Where the solos are; their changes in the score or beside it");
  add_work_options(*command, *options);
  add_output_options(*command, *options);
  add_reading_options(*command, options->survey.reading);
  command->footer(survey_examples);
  command->callback([options] { run(*options); });
}

}  // namespace insideline::cli
