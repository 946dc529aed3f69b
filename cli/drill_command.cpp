// insideline drill --changes FILE -o SHEET: a practice sheet over a tune's changes.
#include "analyzer/drills/drill.hpp"
#include "analyzer/drills/drill_in_keys.hpp"
#include "analyzer/drills/readable_drill.hpp"
#include "cli/chart_options.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/drill_figures.hpp"
#include "cli/drill_rules.hpp"
#include "cli/engraver.hpp"
#include "cli/number_check.hpp"
#include "cli/output.hpp"
#include "cli/play_along.hpp"
#include "cli/reading_option.hpp"
#include "cli/sheet_solo.hpp"
#include "cli/solo_options.hpp"
#include "io/changes/changes_file.hpp"
#include "io/musicxml/score_writer.hpp"
#include "reports/printed/drill_sheet.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::cli {
namespace {

constexpr int most_choruses = 20;
constexpr int most_tones_a_bar = 16;
constexpr std::size_t most_bars = 1000;
constexpr double default_bpm = 120.0;

struct DrillCommand {
  ChartOptions chart;
  std::string output;
  DrillSettings settings;
  std::optional<Instrument> instrument;
  bool for_its_player = false;  // by --for
  std::optional<int> choruses;
  SheetSolo solo;
  PlayAlong play;
  std::optional<double> goal_bpm;  // as --tempo says it; else the chart, else default_bpm
  reports::DrillSheetOptions sheet;
};

constexpr const char* drill_examples =
    "Without further options the line moves to the nearest tone at every change.\n\n"
    "Examples:\n"
    "  insideline drill --changes tune.changes -o sheet.pdf\n"
    "      The line of nearest tones, ready to print, with a plan.\n"
    "  insideline drill --changes tune.changes --arpeggios down --from 7 \\\n"
    "      --for tenor-sax -o sheet.pdf\n"
    "      Every chord down from its seventh, as a tenor player reads it.\n"
    "  insideline drill --changes tune.changes --cell \"7 3 5\" -o sheet.mid\n"
    "      Seventh, third and fifth of every chord, to play along with.\n"
    "  insideline drill --changes tune.changes --guide-tones two -o sheet.pdf\n"
    "      Third and seventh of every chord, led by the least motion.\n"
    "  insideline drill --changes tune.changes --section B --all-keys -o sheet.pdf\n"
    "      The bridge in all keys, round the fourths.\n"
    "  insideline drill --changes tune.changes --gaps solo.musicxml -o sheet.pdf\n"
    "      What that solo lacks, in words and as a sheet.\n";

enum class SheetFormat : std::uint8_t { musicxml, midi, pdf, lilypond };

std::optional<SheetFormat> format_of(const std::string& destination) {
  static constexpr std::array endings{std::pair(".musicxml", SheetFormat::musicxml),
                                      std::pair(".mid", SheetFormat::midi), std::pair(".pdf", SheetFormat::pdf),
                                      std::pair(".ly", SheetFormat::lilypond)};
  const std::string ending = std::filesystem::path(destination).extension().string();
  for (const auto& [known, format] : endings)
    if (ending == known) return format;
  return std::nullopt;
}

std::string not_a_sheet(const std::string& destination) {
  if (format_of(destination)) return {};
  return "'" + destination + "' has none of the endings .musicxml, .mid, .pdf and .ly, which say what is written";
}

std::string not_a_range(const std::string& text) {
  if (instrument_named(text)) return {};
  const auto range = parse_pitch_range(text);
  if (!range)
    return "'" + text +
           "' is no range; write two notes, low before high, as in F3-C5, or one of: " + instrument_names();
  constexpr int octave = 12;
  if (range->highest - range->lowest < octave) return "'" + text + "' is smaller than an octave";
  return {};
}

void spare_inputs(const DrillCommand& command, const Destinations& destinations) {
  destinations.spare(command.chart.file);
  spare_sheet_solo(command.solo, destinations);
}

/// Options that contradict each other are a wrong command line.
void check_options(const CLI::App& app, const DrillCommand& command) {
  check_drill_rules(app, command.output);
  if (command.sheet.pitch == reports::PrintedPitch::written && !command.instrument)
    throw CLI::ValidationError("--written",
                               "the instrument is not known; name it, as in --for tenor-sax, which says both");
  Destinations destinations;
  destinations.add("--output", command.output);
  destinations.add("--wav", command.play.wav);
  spare_inputs(command, destinations);
}

/// The score, in the pitch of `report`: concert, or with names that are plain as written.
std::string score_bytes(const DrillCommand& command, const reports::DrillReport& report) {
  const Drill& drill = report.drill;
  const bool is_written = command.sheet.pitch == reports::PrintedPitch::written;
  io::ScoreWriteOptions options;
  if (is_written) options.pitch = io::ScorePitch::written;
  for (const OpenChoice& choice : drill.open_choices) options.cues.push_back({choice.note, choice.other});
  const Interval up = is_written ? -drill.solo.sounding_minus_written : Interval{};
  for (const KeyStart& start : report.keys) options.headings.push_back({start.bar, to_string(read_key(start.key, up))});
  if (command.sheet.degrees == reports::DegreeRow::shown) options.under = reports::degree_names(drill, report.settings);
  return io::write_musicxml(drill.solo, drill.harmony, options);
}

std::string sheet_bytes(const DrillCommand& command, const reports::DrillReport& report) {
  switch (*format_of(command.output)) {
    case SheetFormat::midi: return {};  // play_along_files() may write several
    case SheetFormat::lilypond: return reports::drill_sheet_text(report, command.sheet);
    case SheetFormat::pdf: {
      constexpr std::size_t start_seconds = 60;
      const auto text_file = std::filesystem::path(command.output).replace_extension(".ly");
      return engraved_pdf(reports::drill_sheet_text(report, command.sheet),
                          std::chrono::seconds(start_seconds + report.drill.solo.bars.size() / 2),
                          engraved_elsewhere("insideline drill -o " + text_file.string()));
    }
    case SheetFormat::musicxml: return score_bytes(command, report);
  }
  return {};
}

/// What is printed, as the player reads it where that is asked for.
std::string read_sheet_bytes(const DrillCommand& command, const reports::DrillReport& report) {
  if (command.sheet.pitch != reports::PrintedPitch::written) return sheet_bytes(command, report);
  const Drill read = readable_drill(report.drill, -report.drill.solo.sounding_minus_written);
  return sheet_bytes(command,
                     {read, report.settings, report.why, report.goal_bpm, report.aim, report.keys, report.key_order});
}

/// All files of the sheet, or none.
void write_files(const DrillCommand& command, const reports::DrillReport& report) {
  const bool is_midi = format_of(command.output) == SheetFormat::midi;
  std::vector<NamedBytes> files = is_midi
                                      ? play_along_files(command.play, command.output, report.drill, report.goal_bpm)
                                      : std::vector<NamedBytes>{{command.output, read_sheet_bytes(command, report)}};
  Destinations destinations;
  for (const NamedBytes& file : files) destinations.add("--ladder", file.file);
  spare_inputs(command, destinations);
  if (command.play.wav) files.push_back(sound_file(command.play, report.drill, report.goal_bpm));
  std::vector<PendingFile> pending;
  for (const NamedBytes& file : files) pending.emplace_back(file.file, file.bytes);
  commit_all(pending);
}

/// The sheet over one key, or through all of them.
tl::expected<DrillInKeys, std::string> drill_asked(const DrillCommand& command, const Changes& changes,
                                                   const DrillSettings& settings) {
  if (command.chart.all_keys) return drill_in_keys(changes, settings, *command.chart.all_keys);
  auto drill = drill_over(changes, settings);
  if (!drill) return tl::unexpected(drill.error());
  return DrillInKeys{std::move(*drill), {}};
}

/// A seed that changed nothing, because one line alone is best, is told.
void tell_idle_seed(const DrillCommand& command, const Changes& changes, DrillSettings settings, const Drill& made) {
  if (settings.seed == 0) return;
  settings.seed = 0;
  const auto plain = drill_asked(command, changes, settings);
  if (plain && std::ranges::equal(plain->drill.solo.notes, made.solo.notes, {}, &Note::pitch, &Note::pitch))
    print_warning(
        "--seed changes nothing here: the line is that of no seed; another number gives another where one is as good");
}

void check_length(const DrillCommand& command, std::size_t form_bars, int choruses) {
  const std::size_t keys = command.chart.all_keys ? 12 : 1;
  if (form_bars * static_cast<std::size_t>(choruses) * keys <= most_bars) return;
  throw io::ReadError(
      io::place_of(file_name(command.chart.file)),
      fmt::format("the sheet would be longer than {} bars; --choruses says how often the form is played{}", most_bars,
                  keys > 1 ? ", --section or --bars which part of it" : ""));
}

void make_drill(const DrillCommand& command) {
  const io::ChartReading chart = chosen_chart(command.chart);
  const double goal_bpm = command.goal_bpm.value_or(chart.tempo_bpm.value_or(default_bpm));
  const std::string file = file_name(command.chart.file);
  DrillSettings settings = command.settings;
  if (command.instrument) settings.range = sounding_range(*command.instrument);
  const std::vector<std::string> why = follow_solo(command.solo, settings);
  constexpr int inversions = 4;
  settings.choruses = command.choruses.value_or(settings.every_inversion ? inversions : 1);
  check_length(command, chart.changes.bars.size(), settings.choruses);
  auto made = drill_asked(command, chart.changes, settings);
  if (!made) throw io::ReadError(io::place_of(file), made.error());
  tell_idle_seed(command, chart.changes, settings, made->drill);
  Solo& solo = made->drill.solo;
  solo.title = chart.changes.title;
  solo.tempo_bpm = goal_bpm;
  solo.part = "Practice line";
  if (command.instrument) set_instrument(solo, *command.instrument);
  const reports::DrillReport report{
      made->drill,           settings, why, goal_bpm, check_aim(made->drill, settings, made->keys), made->keys,
      command.chart.all_keys};
  write_files(command, report);
  write_to_standard_output(reports::drill_plan_text(report) +
                           (command.play.wav ? "\n" + volume_line(*command.play.wav) : ""));
}

void add_line_options(CLI::App& command, DrillCommand& options) {
  const std::string group = "How it runs";
  static const std::map<std::string, DrillRhythm> rhythms{{"quarters", DrillRhythm::quarters},
                                                          {"eighths", DrillRhythm::eighths},
                                                          {"triplets", DrillRhythm::triplets},
                                                          {"off-beat", DrillRhythm::off_beat},
                                                          {"three-over-four", DrillRhythm::three_over_four}};
  DrillSettings& settings = options.settings;
  command
      .add_option_function<std::string>(
          "--range",
          [&options](const std::string& text) {
            options.instrument = instrument_named(text);
            if (!options.instrument) options.settings.range = *parse_pitch_range(text);
          },
          "Sounding notes as in F3-C5, or an instrument: " + instrument_names() + "; default: C4-C6")
      ->check(CLI::Validator(not_a_range, ""))
      ->option_text("LOW-HIGH|INSTRUMENT")
      ->group(group);
  const auto for_player = [&options](const Instrument& instrument) {
    options.instrument = instrument;
    options.for_its_player = true;
    options.sheet.pitch = reports::PrintedPitch::written;
  };
  add_instrument_option(command, for_player,
                        "In the range of this instrument, and as its player reads it: --range and --written in one")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--rhythm", [&settings](const std::string& word) { settings.rhythm = rhythms.at(word); },
          "Default: eighths; off-beat starts half a beat late, three-over-four runs across the bar lines")
      ->check(CLI::IsMember({"quarters", "eighths", "triplets", "off-beat", "three-over-four"}))
      ->option_text("RHYTHM")
      ->group(group);
  auto* sparse = command.add_option("--tones-a-bar", settings.tones_a_bar, "Only so many tones a bar, for lines");
  sparse->check(CLI::Range(1, most_tones_a_bar))->option_text("N")->group(group);
  command.add_option("--choruses", options.choruses, "How often the form is played; default: once")
      ->check(CLI::Range(1, most_choruses))
      ->option_text("N")
      ->group(group);
  command
      .add_option("--seed", settings.seed,
                  "Another line where several are equally good; the same number, the same line")
      ->check(CLI::Range(0, 1'000'000))
      ->option_text("N")
      ->group(group);
}

void add_sheet_options(CLI::App& command, DrillCommand& options) {
  const std::string group = "What is written";
  constexpr double slowest = 20.0;
  constexpr double fastest = 400.0;
  command.add_option("-o,--output", options.output, "The sheet; the ending says what: .musicxml, .mid, .pdf or .ly")
      ->required()
      ->check(CLI::Validator(not_a_sheet, ""))
      ->option_text("SHEET")
      ->group(group);
  command
      .add_flag_callback(
          "--written", [&options] { options.sheet.pitch = reports::PrintedPitch::written; },
          "As the player of the instrument reads it; default: concert pitch")
      ->group(group);
  command
      .add_flag_callback(
          "--degrees", [&options] { options.sheet.degrees = reports::DegreeRow::shown; },
          "Print under each note which tone of the chord it is")
      ->group(group);
  command
      .add_option("--tempo", options.goal_bpm,
                  "Quarter notes a minute: the top of the ladder; default: the tempo of the changes, else 120")
      ->check(CLI::Validator([](const std::string& text) { return not_between(text, slowest, fastest); }, ""))
      ->option_text("BPM")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--paper",
          [&options](const std::string& word) {
            options.sheet.paper = word == "letter" ? reports::Paper::letter : reports::Paper::a4;
          },
          "The size of the paper; default: a4")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->option_text("a4|letter")
      ->group(group);
}

}  // namespace

void add_drill_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand("drill", "Make a practice sheet over a tune's changes");
  const auto options = std::make_shared<DrillCommand>();
  add_chart_options(*command, options->chart);
  add_figure_options(*command, options->settings);
  add_sheet_solo_options(*command, options->solo);
  add_line_options(*command, *options);
  add_sheet_options(*command, *options);
  add_play_along_options(*command, options->play);
  command->footer(drill_examples);
  command->callback([command, options] {
    check_options(*command, *options);
    make_drill(*options);
  });
}

}  // namespace insideline::cli
