// insideline assess TAKE --against SHEET: what of a sheet was right in a take.
#include "analyzer/measures/time_feel.hpp"
#include "analyzer/takes/another_sheet.hpp"
#include "cli/command.hpp"
#include "cli/day.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "cli/recording_options.hpp"
#include "cli/solo_options.hpp"
#include "cli/terminal.hpp"
#include "io/content_hash.hpp"
#include "io/database/practice_log.hpp"
#include "io/read_result.hpp"
#include "reports/assessment/assessment_report.hpp"
#include "reports/reading_words.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>
#include <sys/stat.h>
#include <CLI/CLI.hpp>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace insideline::cli {
namespace {

struct AssessOptions {
  SoloOptions take;  ///< and how the sheet's changes lie
  ListeningOptions listening;
  std::optional<std::string> sheet;
  bool free = false;
  std::optional<int> one_mistake_in;
  std::optional<std::string> log;
  std::optional<std::string> player;
  std::optional<std::string> day;
  std::optional<std::string> json;
  std::optional<std::string> html;
  ColourChoice colour = ColourChoice::automatic;
};

constexpr const char* assess_examples =
    "Examples:\n"
    "  insideline assess take.mid --against sheet.musicxml\n"
    "      What was right, by chord, direction and inversion, and where the trouble spots are.\n"
    "  insideline assess take.wav --against sheet.musicxml --range alto-sax\n"
    "      The same from a recording: chords in headphones, the telephone a metre away.\n"
    "  insideline assess take.mid --against sheet.musicxml --one-mistake-in 20 --html page.html\n"
    "      Harder to please, and a page with the shares as bars.\n"
    "  insideline assess take.mid --free --changes tune.changes\n"
    "      No sheet: how much of free playing the chords explain, and which chords it misses.\n";

/// Whether the beats of the file are those of the player. Otherwise nothing was played to, and there is no ahead and
/// no behind.
bool is_to_its_tempo(const Solo& take, const Assessment& assessment) {
  constexpr double within = 0.03;
  if (!take.tempo_bpm || !assessment.evenness) return false;
  return std::abs(assessment.evenness->tempo_bpm - *take.tempo_bpm) < within * *take.tempo_bpm;
}

/// The day on which the file was last written, in Coordinated Universal Time.
std::string day_of(const std::string& file) {
  struct stat status {};
  ::stat(file.c_str(), &status);  // it was read a moment ago
  const auto written = std::chrono::system_clock::from_time_t(status.st_mtime);
  return reports::day_text(std::chrono::floor<std::chrono::days>(written));
}

/// Writes the take down and gives back all takes of the player and the sheet.
std::vector<LoggedTake> kept_in_log(const AssessOptions& options, const reports::AssessmentReport& report,
                                    const Solo& sheet, const Solo& take, std::string_view take_bytes) {
  if (!options.log) return {};
  io::PracticeLog log(*options.log);
  LoggedTake row = logged(report.assessment, take);
  row.player = options.player.value_or("");
  row.day = options.day ? *options.day : day_of(options.take.solo);
  row.sheet = fmt::format("{} ({})", report.sheet_title, file_name(*options.sheet));
  row.sheet_id = io::sheet_id(sheet);
  row.take = report.take_file;
  log.add(row, io::content_hash(take_bytes));
  return log.takes_of(row.player, row.sheet_id);
}

/// The sheet with its changes, and what is heard in it, as a solo is read.
SoloOptions sheet_options_of(const AssessOptions& options) {
  SoloOptions sheet;
  sheet.solo = *options.sheet;
  sheet.changes = options.take.changes;
  sheet.changes_pitch = options.take.changes_pitch;
  sheet.hearing_beside = options.take.hearing_beside;
  sheet.start_bar = options.take.start_bar;
  sheet.settings = options.take.settings;
  return sheet;
}

/// What contradicts itself on the command line.
void check(const AssessOptions& options) {
  if (options.free == options.sheet.has_value())
    throw CLI::ValidationError("--against", options.free ? "cannot be given with --free"
                                                         : "give the sheet, or --free for playing without one");
  if (options.free && options.log) throw CLI::ValidationError("--log", "cannot be given with --free");
  for (const auto& [option, value] : {std::pair{"--player", &options.player}, {"--day", &options.day}})
    if (*value && !options.log) throw CLI::ValidationError(option, "is for the practice log; give --log FILE, too");
  if (options.player && options.player->find_first_not_of(" \t\r\n") == std::string::npos)
    throw CLI::ValidationError("--player", "the name is empty");
  if (options.sheet && options.take.section)
    throw CLI::ValidationError("--section", "cannot be given with --against: a take is held against the whole sheet");
  if (options.free && options.html) throw CLI::ValidationError("--html", "cannot be given with --free");
  if (options.free && options.json) throw CLI::ValidationError("--json", "cannot be given with --free");
  Destinations destinations;
  if (options.log) destinations.add_database("--log", *options.log);
  destinations.add("--json", options.json);
  destinations.add("--html", options.html);
  check(options.listening, options.take.solo, destinations);
  destinations.spare_all_of(options.take);
  if (options.sheet) destinations.spare_all_of(sheet_options_of(options));
}

/// `already_moved` is the --transpose that the take was read with.
std::string evidence(const AnotherSheet& found, int already_moved) {
  if (found.from_stretches)
    return fmt::format(
        "this is not that sheet: of {} notes from all over the take {} fit a passage of the sheet, as many "
        "as luck gives",
        found.right.of, found.right.count);
  const std::string fits =
      fmt::format("{} of the sheet's {} notes are in the take in their order", found.right.count, found.right.of);
  if (!found.semitones) return "this is not that sheet: " + fits;
  const int by = *found.semitones;
  const std::string way = by > 0 ? "high" : "low";
  const int octaves = std::abs(by) / semitones_in_octave;
  std::string what = fmt::format("the whole take is {} semitones too {}", std::abs(by), way);
  if (by % semitones_in_octave == 0)
    what = octaves == 1 ? fmt::format("the whole take is an octave too {}", way)
                        : fmt::format("the whole take is {} octaves too {}", octaves, way);
  if (found.as_written) what = "the take has the pitch that the sheet is written in, not the sounding one";
  return fmt::format("{}: as it is, {}; with --transpose {} it would be {}", what, fits, already_moved - by,
                     found.right_if_moved->count);
}

/// Sheet and take in the pitch of the choice, with all names in it.
struct ReadPair {
  reports::Report sheet;
  Solo take;
};

ReadPair in_pitch(const ReadingChoice& choice, const ReadSolo& sheet, const SoloOptions& sheet_options, Solo take) {
  ReadPair pair{analyzed(sheet, sheet_options, choice), std::move(take)};
  const Interval& by = pair.sheet.reading.above_sounding;
  for (Note& note : pair.take.notes) note.pitch = transposed(note.pitch, by);
  for (Note& note : pair.sheet.solo.notes) note.written = note.pitch;
  pair.sheet.solo.sounding_minus_written = {};
  return pair;
}

std::string note_pitch(const ReadingChoice& choice) {
  if (choice.instrument) return reports::pitch_of(*choice.instrument);
  return choice.reader == reports::ReadBy::everybody ? "in concert pitch" : "as the sheet is written";
}

/// Of a recording without a count-in only the times are meant: what is said of its bars is left out.
io::ReadResult read_take(const SoloOptions& options, const SoloBytes& bytes) {
  io::ReadOptions reading = options.reading;
  if (bytes.heard && options.beats_file) reading.beats = io::read_beats_file(*options.beats_file);
  io::ReadResult take = io::parse_solo(bytes.bytes, file_name(options.solo), reading);
  if (!bytes.heard) return take;
  if (!bytes.heard->has_beats) take.warnings.clear();
  take.warnings.insert(take.warnings.begin(), bytes.heard->warnings.begin(), bytes.heard->warnings.end());
  return take;
}

void assess_against(const AssessOptions& options) {
  const SoloOptions sheet_options = sheet_options_of(options);
  const ReadSolo read_sheet = read_with_changes(sheet_options, io::read_solo_bytes(sheet_options.solo));
  const reports::Report& sheet = read_sheet.frame;
  const SoloBytes take_bytes = read_or_heard(options.take, options.listening, Beat::not_needed, &sheet.solo);
  const io::ReadResult take = read_take(options.take, take_bytes);
  // Places; a take of 11,000 notes against a sheet of as many. If all notes were alike, each would take four bytes.
  constexpr std::size_t largest_table = 125'000'000;
  if (sheet.solo.notes.size() * take.solo.notes.size() > largest_table)
    throw io::ReadError(
        io::place_of(file_name(options.take.solo)),
        fmt::format("{} notes against a sheet of {} are more than can be laid side by side; assess it in "
                    "parts",
                    take.solo.notes.size(), sheet.solo.notes.size()));
  reports::AssessmentReport report;
  report.take_file = file_name(options.take.solo);
  if (const auto another = is_clearly_another_sheet(sheet.solo, take.solo))
    throw io::ReadError(io::place_of(report.take_file), evidence(*another, 0));
  report.sheet_title = sheet.solo.title.empty() ? sheet.source.solo_file : sheet.solo.title;
  report.bound = options.one_mistake_in.value_or(report.bound);
  const ReadPair names = in_pitch(options.take.pitch, read_sheet, sheet_options, take.solo);
  report.note_pitch = note_pitch(options.take.pitch);
  report.assessment = assess_take(names.sheet.solo, names.sheet.analysis, names.take);
  if (const auto another = looks_like_another_sheet(sheet.solo, take.solo, report.assessment))
    throw io::ReadError(io::place_of(report.take_file), evidence(*another, options.take.reading.transpose.value_or(0)));
  if (is_to_its_tempo(take.solo, report.assessment)) report.time_feel = time_feel(take.solo);
  report.from_sound = from_sound(take_bytes, take.solo, sheet.solo, report.assessment.alignment);
  if (report.from_sound) leave_out_lateness(report.time_feel);
  std::vector<PendingFile> files = heard_midi_file(take_bytes, options.listening);
  for (const auto& destination : {options.json, options.html})
    if (destination) expect_writable(*destination);  // a take is not logged whose judgement is lost
  report.takes = kept_in_log(options, report, sheet.solo, take.solo, take_bytes.bytes);
  std::string printed = reports::assessment_text(report, colour_of_standard_output(options.colour));
  const auto write_to = [&](const std::optional<std::string>& destination,
                            std::string (*written)(const reports::AssessmentReport&)) {
    if (destination && is_standard_output(*destination)) printed = written(report);
    if (destination && !is_standard_output(*destination)) files.emplace_back(*destination, written(report));
  };
  write_to(options.json, reports::assessment_json);
  write_to(options.html, reports::assessment_page);
  commit_all(files);
  for (const io::Warning& warning : take.warnings) print_warning(to_string(warning));
  write_to_standard_output(printed);
}

void assess_freely(const AssessOptions& options) {
  SoloBytes bytes = read_or_heard(options.take, options.listening, Beat::needed);
  const ReadSolo read = read_over_changes(options.take, bytes);
  const reports::Report take = analyzed(read, options.take, options.take.pitch);
  std::vector<PendingFile> files = heard_midi_file(bytes, options.listening);
  const std::string title = take.source.changes_title.empty() ? take.source.changes_file : take.source.changes_title;
  for (const std::string& warning : take.warnings) print_warning(warning);
  reports::FreeReport report{take.source.solo_file, title, take.analysis, free_playing(take.solo, take.analysis)};
  report.bound = options.one_mistake_in.value_or(report.bound);
  report.from_sound = take.from_sound;
  commit_all(files);
  if (take.reading.reader != reports::ReadBy::everybody) report.pitch = reports::reading_sentences(take);
  write_to_standard_output(reports::free_text(report, colour_of_standard_output(options.colour)));
}

void add_assessing_options(CLI::App& command, AssessOptions& options) {
  const std::string group = "What is judged";
  command.add_option("--against", options.sheet, "The sheet that was played from, a score or a MIDI file")
      ->option_text("SHEET")
      ->group(group);
  command.add_flag("--free", options.free, "There is no sheet: judge free playing over the changes")->group(group);
  command
      .add_option("--one-mistake-in", options.one_mistake_in,
                  "Ready is surely fewer than one mistake in so many notes; default 8, with --free 6")
      ->check(CLI::Range(2, 1000))
      ->option_text("NOTES")
      ->group(group);
  command
      .add_option("--log", options.log, "Keep the take in this practice log, and show the takes of the sheet so far")
      ->option_text("FILE")
      ->group(group);
  command.add_option("--player", options.player, "Whose take it is, for a log that several players share")
      ->option_text("NAME")
      ->group(group);
  command.add_option("--day", options.day, "The day of the take for the log; default: the day its file was written")
      ->check(CLI::Validator(not_a_day, ""))
      ->option_text("YYYY-MM-DD")
      ->group(group);
  command.add_option("--json", options.json, "Write the whole judgement for other programs; - is standard output")
      ->option_text("FILE")
      ->group(group);
  command.add_option("--html", options.html, "Write a page as well; - is standard output")
      ->option_text("FILE")
      ->group(group);
  add_colour_option(command, options.colour, group);
}

}  // namespace

void add_assess_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand("assess", "Judge a recorded take against the sheet it was played from");
  const auto options = std::make_shared<AssessOptions>();
  add_reading_options(*command, options->take);
  add_reading_pitch_options(*command, options->take.pitch);
  command->add_option("TAKE", options->take.solo, "The take, a MIDI file, a recording (WAV, FLAC, Ogg) or a score")
      ->required();
  add_recording_options(*command, options->listening);
  add_assessing_options(*command, *options);
  command->footer(assess_examples);
  command->callback([options] {
    check(*options);
    if (options->free)
      assess_freely(*options);
    else
      assess_against(*options);
  });
}

}  // namespace insideline::cli
