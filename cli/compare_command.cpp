// insideline compare SOLO SOLO...: solos side by side, with how sure the difference is.
#include "analyzer/model/sections.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "cli/section_option.hpp"
#include "cli/solo_options.hpp"
#include "cli/terminal.hpp"
#include "io/read_result.hpp"
#include "reports/comparison/comparison_report.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace insideline::cli {
namespace {

constexpr int fewest_resamples = 100;
constexpr int most_resamples = 1'000'000;

struct CompareOptions {
  SoloOptions reading;  ///< the same for each solo
  std::vector<std::string> solos;
  std::vector<std::string> names;
  reports::Occasion occasion = reports::Occasion::solos;
  ComparisonSettings settings;
  std::optional<std::string> json;
  std::optional<std::string> html;
  ColourChoice colour = ColourChoice::automatic;
};

constexpr const char* compare_examples =
    "Examples:\n"
    "  insideline compare teacher.musicxml student.musicxml --changes tune.changes\n"
    "      Both over the same changes; the student against the teacher.\n"
    "  insideline compare one.musicxml two.musicxml three.mid --html page.html\n"
    "      Each over its own changes, in the score or in one.changes beside it.\n"
    "  insideline compare march.musicxml may.musicxml --before-after\n"
    "      Two takes of one student.\n"
    "  insideline compare solo.musicxml --changes tune.changes --choruses\n"
    "      The choruses of one solo against its first.\n"
    "  insideline compare solo.musicxml --changes tune.changes --choruses --section \"last A\"\n"
    "      The last A of every chorus.\n"
    "  insideline compare solo.musicxml --changes tune.changes --sections\n"
    "      What is played over the bridge against what is played over the A's.\n";

std::vector<std::string> split_at_commas(const std::string& text) {
  std::vector<std::string> parts(1);
  for (const char character : text) {
    if (character == ',') parts.emplace_back();
    if (character != ',') parts.back() += character;
  }
  return parts;
}

/// What contradicts itself on the command line.
void check(const CompareOptions& options) {
  const bool sections = options.occasion == reports::Occasion::sections;
  const bool choruses = options.occasion == reports::Occasion::choruses || sections;
  const char* const parts = sections ? "--sections" : "--choruses";
  if (choruses && options.solos.size() > 1)
    throw CLI::ValidationError(parts, sections ? "compares the sections of one solo; give one file"
                                               : "compares the choruses of one solo; give one file");
  if (sections && options.reading.section)
    throw CLI::ValidationError(parts,
                               "compares all sections; for one section in every chorus give --choruses with "
                               "--section, for one section of two solos --section alone");
  if (!choruses && options.solos.size() < 2)
    throw CLI::ValidationError("SOLO",
                               "a comparison needs two solos or more; the choruses of one are compared with "
                               "--choruses, its sections with --sections");
  if (options.occasion == reports::Occasion::before_after && options.solos.size() != 2)
    throw CLI::ValidationError("--before-after", "compares two takes, the earlier one first; give two files");
  if (!options.names.empty() && (choruses || options.names.size() != options.solos.size()))
    throw CLI::ValidationError("--names", choruses ? fmt::format("cannot be given with {}", parts)
                                                   : fmt::format("give one name to each solo, set apart by commas; "
                                                                 "solos: {}, names: {}",
                                                                 options.solos.size(), options.names.size()));
  if (std::ranges::any_of(options.names, [](const std::string& name) { return name.empty(); }))
    throw CLI::ValidationError("--names", "a name is empty; names are set apart by commas");
}

void check_destinations(const CompareOptions& options) {
  Destinations destinations;
  destinations.add("--json", options.json);
  destinations.add("--html", options.html);
  SoloOptions reading = options.reading;
  for (const std::string& solo : options.solos) {
    reading.solo = solo;
    destinations.spare_all_of(reading);
  }
}

/// The names given, or those of the files: without folder and ending where that tells them apart.
std::vector<std::string> names_of(const CompareOptions& options) {
  if (!options.names.empty()) return options.names;
  std::vector<std::string> names;
  for (const std::string& solo : options.solos) names.push_back(std::filesystem::path(solo).stem().string());
  std::vector<std::string> sorted = names;
  std::ranges::sort(sorted);
  return std::ranges::adjacent_find(sorted) == sorted.end() ? names : options.solos;
}

bool is_section_by_chorus(const CompareOptions& options) {
  return options.occasion == reports::Occasion::choruses && options.reading.section &&
         options.reading.section->kind == SectionKind::named;
}

std::vector<ComparedSolo> parts_compared(const CompareOptions& options, const reports::Report& read) {
  if (options.occasion == reports::Occasion::sections) return compared_sections(read.solo, read.analysis);
  if (!is_section_by_chorus(options)) return compared_choruses(read.solo, read.analysis);
  const std::string& wanted = options.reading.section->name;
  if (sections_named(read.analysis.harmony.sections, wanted).empty())
    throw io::ReadError(io::place_of(read.source.solo_file), no_such_section(wanted, read.analysis.harmony));
  return compared_section_by_chorus(read.solo, read.analysis, wanted);
}

[[noreturn]] void refuse_single_part(const CompareOptions& options, const reports::ComparisonReport& report) {
  const io::Place file = io::place_of(report.read.front().source.solo_file);
  if (options.occasion != reports::Occasion::sections)
    throw io::ReadError(file,
                        "it has one chorus only, so that there is nothing to compare; chords written in a score count "
                        "as one chorus, a changes file goes round");
  if (report.solos.empty())
    throw io::ReadError(
        file,
        "its sections have no letters, so that there is nothing to compare; write [A] before a bar of a "
        "changes file, or rehearsal marks into the score");
  throw io::ReadError(file, fmt::format("it has one section only ({}), so that there is nothing to compare",
                                        report.solos.front().name));
}

reports::ComparisonReport compared(const CompareOptions& options) {
  reports::ComparisonReport report;
  report.occasion = options.occasion;
  report.settings = options.settings;
  const std::vector<std::string> names = names_of(options);
  for (std::size_t i = 0; i < options.solos.size(); ++i) {
    SoloOptions reading = options.reading;
    reading.solo = options.solos[i];
    reading.settings.detail = insideline::Detail::figures;
    if (is_section_by_chorus(options)) reading.section.reset();
    report.read.push_back(analyzed(reading));
    const reports::Report& read = report.read.back();
    for (const std::string& warning : read.warnings)
      report.warnings.push_back(options.solos.size() > 1 ? names[i] + ": " + warning : warning);
    if (options.occasion == reports::Occasion::choruses || options.occasion == reports::Occasion::sections)
      report.solos = parts_compared(options, read);
    else
      report.solos.push_back(compared_solo(names[i], read.solo, read.analysis));
  }
  if (report.solos.size() < 2) refuse_single_part(options, report);
  report.comparison = compare(report.solos, report.settings);
  return report;
}

/// Every file is complete before the first of them appears; then comes what is printed.
void write_results(const CompareOptions& options, const reports::ComparisonReport& report) {
  std::vector<PendingFile> files;
  std::string printed = reports::comparison_text(report, colour_of_standard_output(options.colour));
  const auto deliver = [&](const std::optional<std::string>& destination, std::string text) {
    if (!destination) return;
    if (is_standard_output(*destination)) {
      printed = std::move(text);
    } else {
      files.emplace_back(*destination, text);
    }
  };
  if (options.json) deliver(options.json, reports::comparison_json(report));
  if (options.html) deliver(options.html, reports::comparison_page(report));
  commit_all(files);
  for (const std::string& warning : report.warnings) print_warning(warning);
  write_to_standard_output(printed);
}

void add_comparing_options(CLI::App& command, CompareOptions& options) {
  const std::string group = "What is compared";
  auto* choruses = command.add_flag_callback(
      "--choruses", [&options] { options.occasion = reports::Occasion::choruses; },
      "The choruses of one solo, each against the first; with --section B that section of each");
  auto* takes = command.add_flag_callback(
      "--before-after", [&options] { options.occasion = reports::Occasion::before_after; },
      "Two takes of one player, the earlier one first");
  auto* sections = command.add_flag_callback(
      "--sections", [&options] { options.occasion = reports::Occasion::sections; },
      "The lettered sections of one solo, all A's together, all B's ..., each against the first");
  choruses->group(group);
  sections->group(group)->excludes(choruses);
  takes->group(group)->excludes(choruses)->excludes(sections);
  command
      .add_option_function<std::string>(
          "--names", [&options](const std::string& text) { options.names = split_at_commas(text); },
          "What the solos are called, in their order and set apart by commas; default: their file names")
      ->option_text("NAME,NAME...")
      ->group(group);
  command
      .add_option("--resamples", options.settings.resamples,
                  "How often the bars are drawn again to see how sure a difference is; default 2000")
      ->check(CLI::Range(fewest_resamples, most_resamples))
      ->option_text("N")
      ->group(group);
  command
      .add_option("--seed", options.settings.seed,
                  "Where the drawing starts; default 1. The same seed gives the same result")
      ->option_text("N")
      ->group(group);
}

void add_output_options(CLI::App& command, CompareOptions& options) {
  const std::string group = "What is written";
  command.add_option("--json", options.json, "Write every figure for other programs; - is standard output")
      ->option_text("FILE")
      ->group(group);
  command.add_option("--html", options.html, "Write a page with plots and line maps; - is standard output")
      ->option_text("FILE")
      ->group(group);
  add_colour_option(command, options.colour, group);
}

}  // namespace

void add_compare_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("compare", "Put two or more solos side by side, and say how sure each difference is");
  const auto options = std::make_shared<CompareOptions>();
  command->add_option("SOLO", options->solos, "The solos, the first of them the measure of the others")->required();
  add_reading_options(*command, options->reading);
  add_comparing_options(*command, *options);
  add_output_options(*command, *options);
  command->footer(compare_examples);
  command->callback([options] {
    check(*options);
    check_destinations(*options);
    write_results(*options, compared(*options));
  });
}

}  // namespace insideline::cli
