// insideline analyze SOLO: the main job.
#include "cli/child_process.hpp"
#include "cli/collection_report.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/engraved_page.hpp"
#include "cli/output.hpp"
#include "cli/recording_options.hpp"
#include "cli/score_ink.hpp"
#include "cli/solo_options.hpp"
#include "cli/terminal.hpp"
#include "io/database/collection.hpp"
#include "io/read_result.hpp"
#include "io/read_solo.hpp"
#include "reports/explain_report.hpp"
#include "reports/hearing_text.hpp"
#include "reports/report_formats.hpp"
#include "reports/text_report.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <charconv>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace insideline::cli {
namespace {

/// What --explain asks about: all notes of a bar, or one note by its index in the analysis file.
struct Question {
  bool about_note = false;
  int number = 0;
};

struct AnalyzeOptions {
  SoloOptions solo;
  ListeningOptions listening;
  std::optional<Question> question;
  std::map<std::string, std::string> destinations;  ///< by the name of the format
  bool bar_by_bar = false;
  bool details = false;
  bool score_wanted = false;                                     ///< in the page
  bool only_unsure = false;                                      ///< in the hearing file
  ChordInkWanted chord_ink = ChordInkWanted::from_changes_file;  ///< in the annotated score
  std::optional<std::string> against;                            ///< a database to find the solo's place in
  ColourChoice colour = ColourChoice::automatic;
};

constexpr const char* analyze_examples =
    "Examples:\n"
    "  insideline analyze solo.musicxml\n"
    "      The chords are in the score; the summary is printed.\n"
    "  insideline analyze solo.musicxml --changes tune.changes --bars\n"
    "      The chords come from a text file; every bar is printed with its labels.\n"
    "  insideline analyze tenor.musicxml --changes tune.changes --transpose -14\n"
    "      The score does not say that it is a B flat tenor part.\n"
    "  insideline analyze solo.musicxml --json solo.json --csv solo.csv\n"
    "      The results are written to files as well.\n"
    "  insideline analyze solo.musicxml --csv - | less\n"
    "      One table to standard output and nothing else.\n"
    "  insideline analyze solo.musicxml --annotated labelled.musicxml\n"
    "      The same score with degrees, coloured heads and arpeggios, for a notation program.\n"
    "  insideline analyze solo.musicxml --hearing-out solo.hearing --only-unsure\n"
    "      A text file of the notes in doubt: correct it, and the analysis follows what you hear.\n"
    "  insideline analyze solo.wav --changes tune.changes --range alto-sax\n"
    "      A recording that begins with a count-in of clicks; without one give --tempo or --beats.\n"
    "  insideline analyze solo.musicxml --explain 5\n"
    "      Why the notes of bar 5 are labelled as they are.\n";

void check_destinations(const AnalyzeOptions& options) {
  Destinations destinations;
  for (const auto& [format, destination] : options.destinations) destinations.add("--" + format, destination);
  check(options.listening, options.solo.solo, destinations);
  destinations.spare_all_of(options.solo);
  if (options.against) destinations.spare_database(*options.against);
}

std::optional<Question> read_question(std::string_view text) {
  Question question{.about_note = text.starts_with('n')};
  if (question.about_note) text.remove_prefix(1);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), question.number);
  if (error != std::errc{} || end != text.data() + text.size() || question.number < 0) return std::nullopt;
  return question;
}

std::vector<std::size_t> notes_asked_about(const Question& question, const reports::Report& report) {
  std::vector<std::size_t> notes;
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i) {
    const Bar& bar = report.solo.bars[bar_index_at(report.solo, report.solo.notes[i].onset)];
    const bool asked =
        question.about_note ? i == static_cast<std::size_t>(question.number) : bar.number == question.number;
    if (asked) notes.push_back(i);
  }
  if (!notes.empty()) return notes;
  const std::string where =
      question.about_note ? fmt::format("note n{}", question.number) : fmt::format("bar {}", question.number);
  throw io::ReadError(
      io::place_of(report.source.solo_file),
      fmt::format("there is no note in {}; the solo has bars {} to {} and notes n0 to n{}", where,
                  report.solo.bars.front().number, report.solo.bars.back().number, report.solo.notes.size() - 1));
}

std::string explanation(const Question& question, const reports::Report& report) {
  std::ostringstream text;
  reports::write_explanation(text, report, notes_asked_about(question, report), report.settings);
  return text.str();
}

constexpr std::string_view page = "html";  // the format that --score adds to

bool with_score(const AnalyzeOptions& options, const reports::ReportFormat& format) {
  return options.score_wanted && format.name == page;
}

constexpr ReadingChoice sounding{};  // for a format that names both pitches

constexpr const char* annotated = "annotated";      // the name of the option and of its destination
constexpr const char* hearing_out = "hearing-out";  // the same

/// Throws where there is no such database.
std::string standing_among(const std::string& database, const reports::Report& report) {
  if (!std::filesystem::exists(database))
    throw io::ReadError(io::place_of(database),
                        "there is no such database; make it with `insideline survey FOLDER --db FILE`");
  io::Collection collection(database, io::Access::read);
  return reports::standing_text(std::filesystem::path(database).filename().string(),
                                standings(collection, figure_entries(report.solo, report.analysis)));
}

/// How much of the analysis the user is shown.
insideline::Detail detail_shown(const AnalyzeOptions& options) {
  if (!options.destinations.empty() || options.question || options.bar_by_bar) return insideline::Detail::reasons;
  return options.details || options.against ? insideline::Detail::figures : insideline::Detail::first_page;
}

std::string format_bytes(const reports::ReportFormat& format, const AnalyzeOptions& options, const ReadSolo& read,
                         const reports::Report& report) {
  if (with_score(options, format)) return page_with_score(report);
  const bool as_read = format.pitch == reports::FormatPitch::as_read || report.reading.above_sounding == Interval{};
  return format.write(as_read ? report : analyzed(read, options.solo, sounding));
}

/// Every file is complete before the first of them appears; then comes what is printed.
void write_results(const AnalyzeOptions& options, const ReadSolo& read, const SoloBytes& solo) {
  const reports::Report report = analyzed(read, options.solo, options.solo.pitch);
  std::optional<SignalsHeld> signals;  // while LilyPond draws, so that they arrive when no file is left half made
  if (options.score_wanted) signals.emplace();
  std::vector<PendingFile> files = heard_midi_file(solo, options.listening);
  std::string printed;
  bool summary_wanted = true;
  const auto put = [&](const std::string& destination, std::string bytes) {
    if (!is_standard_output(destination)) return static_cast<void>(files.emplace_back(destination, bytes));
    printed = std::move(bytes);
    summary_wanted = false;
  };
  for (const reports::ReportFormat& format : reports::report_formats())
    if (const auto found = options.destinations.find(format.name); found != options.destinations.end())
      put(found->second, format_bytes(format, options, read, report));
  if (const auto found = options.destinations.find(annotated); found != options.destinations.end())
    put(found->second, annotated_file(report, solo.bytes, found->second, options.chord_ink));
  if (const auto found = options.destinations.find(hearing_out); found != options.destinations.end())
    put(found->second, reports::hearing_text(
                           report, options.only_unsure ? reports::HearingLines::unsure : reports::HearingLines::all));
  if (summary_wanted && options.question) {
    printed = explanation(*options.question, report);
  } else if (summary_wanted) {
    printed = reports::text_report(
        report, {.colour = colour_of_standard_output(options.colour),
                 .bar_by_bar = options.bar_by_bar ? reports::BarByBar::shown : reports::BarByBar::left_out,
                 .length = options.details ? reports::Length::whole : reports::Length::first_page});
    if (options.against) printed += "\n" + standing_among(*options.against, report);
  }
  commit_all(files);
  signals.reset();
  for (const std::string& warning : report.warnings) print_warning(warning);
  if (options.destinations.contains(annotated) && options.chord_ink == ChordInkWanted::from_changes_file &&
      report.source.has_own_symbols && report.source.changes_file != "in score")
    print_warning(fmt::format("{}: the score has chord symbols of its own; they stay, and those of {} are not added",
                              report.source.solo_file, report.source.changes_file));
  write_to_standard_output(printed);
}

void add_hearing_out_options(CLI::App& command, AnalyzeOptions& options, const std::string& group) {
  command
      .add_option_function<std::string>(
          std::string("--") + hearing_out,
          [&options](const std::string& file) { options.destinations[hearing_out] = file; },
          "Write what is heard, a line a note, for you to change and to give back with --hearing")
      ->option_text("FILE")
      ->excludes("--section")
      ->group(group);
  command
      .add_flag("--only-unsure", options.only_unsure, "With --hearing-out: only the notes that are less than 75 % sure")
      ->needs(std::string("--") + hearing_out)
      ->group(group);
}

void add_output_options(CLI::App& command, AnalyzeOptions& options) {
  const std::string group = "What is written";
  command.add_flag("--bars", options.bar_by_bar, "Print every bar with chords, notes, degrees and marks as well")
      ->group(group);
  command
      .add_flag("--details", options.details,
                "Print the whole summary: by kind of chord and chorus, what luck would give, shapes and cells, the "
                "smoothest thread, early and late notes, time, phrase by phrase")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--explain",
          [&options](const std::string& text) {
            options.question = read_question(text);
            if (!options.question)
              throw CLI::ValidationError("--explain", "takes a bar (5) or a note of the analysis file (n31)");
          },
          "Print why the notes of a bar (5), or one note (n31), are labelled as they are")
      ->option_text("BAR|NOTE")
      ->group(group);
  for (const reports::ReportFormat& format : reports::report_formats()) {
    const std::string name = format.name;
    command
        .add_option_function<std::string>(
            "--" + name, [&options, name](const std::string& file) { options.destinations[name] = file; }, format.what)
        ->option_text("FILE")
        ->group(group);
  }
  command
      .add_flag("--score", options.score_wanted,
                "Put the engraved score into the page of --html; LilyPond draws it, in a few seconds")
      ->needs("--html")
      ->group(group);
  command
      .add_option_function<std::string>(
          std::string("--") + annotated,
          [&options](const std::string& file) { options.destinations[annotated] = file; },
          "Write the same score with the labels in it, as .musicxml or .mxl")
      ->option_text("FILE")
      ->group(group);
  command
      .add_flag_callback(
          "--no-chords", [&options] { options.chord_ink = ChordInkWanted::none; },
          "With --annotated: without the chord symbols of the changes file")
      ->needs(std::string("--") + annotated)
      ->group(group);
  add_hearing_out_options(command, options, group);
  command
      .add_option("--against", options.against,
                  "Print where the solo stands among those of a database that `insideline survey` made")
      ->option_text("DB")
      ->group(group);
  add_colour_option(command, options.colour, group);
}

}  // namespace

void add_analyze_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("analyze", "Label every note of a solo, find its arpeggios and connections, sum it up");
  const auto options = std::make_shared<AnalyzeOptions>();
  add_solo_options(*command, options->solo);
  add_recording_options(*command, options->listening);
  add_reading_pitch_options(*command, options->solo.pitch);
  add_output_options(*command, *options);
  command->footer(analyze_examples);
  command->callback([options] {
    check_destinations(*options);
    SoloBytes solo = read_or_heard(options->solo, options->listening, Beat::needed);
    options->solo.settings.detail = detail_shown(*options);
    ReadSolo read = read_over_changes(options->solo, solo);
    write_results(*options, read, solo);
  });
}

}  // namespace insideline::cli
