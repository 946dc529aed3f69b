// insideline drill --changes FILE -o SHEET: a practice sheet over a tune's changes.
#include "analyzer/drills/drill.hpp"
#include "cli/chart_key.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/drill_aims.hpp"
#include "cli/engraver.hpp"
#include "cli/output.hpp"
#include "cli/play_along.hpp"
#include "cli/reading_option.hpp"
#include "cli/sheet_solo.hpp"
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
#include <sstream>
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
  std::string changes;
  std::string output;
  DrillSettings settings;
  std::optional<Instrument> instrument;
  bool for_its_player = false;  // by --for
  std::optional<int> choruses;
  SheetSolo solo;
  PlayAlong play;
  std::optional<NoteName> tonic;   // of --key
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

/// "7 3 5": at least two tones, neighbours different. An error says which word is none.
std::optional<DrillCell> parsed_cell(const std::string& text, std::string& problem) {
  static constexpr std::array known{1, 2, 3, 4, 5, 6, 7, 9, 11, 13};
  std::string plain = text;
  std::ranges::replace(plain, '-', ' ');
  std::istringstream words(plain);
  DrillCell cell;
  for (std::string word; words >> word;) {
    const auto degree = word == "maj7" ? std::optional(Degree{7, 0}) : parse_degree(word);
    if (!degree || std::ranges::find(known, degree->number) == known.end()) {
      problem = "'" + word + "' is no tone of a chord; a cell is made of 1 2 3 4 5 6 7 9 11 13, as in \"3 5 7 9\"";
      return std::nullopt;
    }
    if (!cell.tones.empty() && cell.tones.back().asked.number == degree->number) {
      problem = "'" + word + "' stands twice in a row";
      return std::nullopt;
    }
    cell.tones.push_back({*degree, word.front() == 'b' || word.front() == '#' || word == "maj7"});
  }
  constexpr std::size_t most_tones = 8;
  if (cell.tones.size() >= 2 && cell.tones.size() <= most_tones) return cell;
  problem = "'" + text + "' is no cell; name two to eight tones, as in \"7 3 5\"";
  return std::nullopt;
}

std::string not_a_cell(const std::string& text) {
  std::string problem;
  parsed_cell(text, problem);
  return problem;
}

void spare_inputs(const DrillCommand& command, const Destinations& destinations) {
  destinations.spare(command.changes);
  spare_sheet_solo(command.solo, destinations);
}

/// Options that contradict each other are a wrong command line.
void check_options(const DrillCommand& command) {
  if (command.sheet.pitch == reports::PrintedPitch::written && !command.instrument)
    throw CLI::ValidationError("--written", "the instrument is not known; name it, as in --for tenor-sax");
  if (format_of(command.output) == SheetFormat::midi) {
    constexpr const char* nothing_printed = "a MIDI file shows no page; it goes with .musicxml, .pdf or .ly";
    const bool asks_for_written = command.sheet.pitch == reports::PrintedPitch::written && !command.for_its_player;
    if (asks_for_written) throw CLI::ValidationError("--written", nothing_printed);
    if (command.sheet.degrees == reports::DegreeRow::shown) throw CLI::ValidationError("--degrees", nothing_printed);
  }
  check_sheet_solo(command.solo);
  check_play_along(command.play, command.settings, format_of(command.output) == SheetFormat::midi);
  Destinations destinations;
  destinations.add("--output", command.output);
  destinations.add("--wav", command.play.wav);
  spare_inputs(command, destinations);
}

std::string sheet_bytes(const DrillCommand& command, const reports::DrillReport& report) {
  const Drill& drill = report.drill;
  switch (*format_of(command.output)) {
    case SheetFormat::midi: return {};  // play_along_files() may write several
    case SheetFormat::lilypond: return reports::drill_sheet_text(report, command.sheet);
    case SheetFormat::pdf: {
      constexpr std::size_t start_seconds = 60;
      const auto text_file = std::filesystem::path(command.output).replace_extension(".ly");
      return engraved_pdf(reports::drill_sheet_text(report, command.sheet),
                          std::chrono::seconds(start_seconds + drill.solo.bars.size() / 2),
                          engraved_elsewhere("insideline drill -o " + text_file.string()));
    }
    case SheetFormat::musicxml: {
      io::ScoreWriteOptions options;
      if (command.sheet.pitch == reports::PrintedPitch::written) options.pitch = io::ScorePitch::written;
      for (const OpenChoice& choice : drill.open_choices) options.cues.push_back({choice.note, choice.other});
      if (command.sheet.degrees == reports::DegreeRow::shown) options.under = reports::degrees_of(drill);
      return io::write_musicxml(drill.solo, drill.harmony, options);
    }
  }
  return {};
}

/// All files of the sheet, or none.
void write_files(const DrillCommand& command, const reports::DrillReport& report) {
  const bool is_midi = format_of(command.output) == SheetFormat::midi;
  std::vector<NamedBytes> files = is_midi
                                      ? play_along_files(command.play, command.output, report.drill, report.goal_bpm)
                                      : std::vector<NamedBytes>{{command.output, sheet_bytes(command, report)}};
  Destinations destinations;
  for (const NamedBytes& file : files) destinations.add("--ladder", file.file);
  spare_inputs(command, destinations);
  if (command.play.wav) files.push_back(sound_file(command.play, report.drill, report.goal_bpm));
  std::vector<PendingFile> pending;
  for (const NamedBytes& file : files) pending.emplace_back(file.file, file.bytes);
  for (PendingFile& file : pending) file.commit();
}

void make_drill(const DrillCommand& command) {
  check_options(command);
  const io::ChartReading chart = io::read_chart(command.changes);
  const std::string file = file_name(command.changes);
  const Changes changes = in_key(command.tonic, chart.changes, file);
  const double goal_bpm = command.goal_bpm.value_or(chart.tempo_bpm.value_or(default_bpm));
  for (const io::Warning& warning : chart.warnings) print_warning(to_string(warning));
  DrillSettings settings = command.settings;
  if (command.instrument) settings.range = sounding_range(*command.instrument);
  const std::vector<std::string> why = follow_solo(command.solo, settings);
  constexpr int inversions = 4;
  settings.choruses = command.choruses.value_or(settings.every_inversion ? inversions : 1);
  if (changes.bars.size() * static_cast<std::size_t>(settings.choruses) > most_bars)
    throw io::ReadError(
        io::place_of(file),
        fmt::format("the sheet would be longer than {} bars; --choruses says how often the form is played", most_bars));
  auto drill = drill_over(changes, settings);
  if (!drill) throw io::ReadError(io::place_of(file), drill.error());
  drill->solo.title = changes.title.empty() ? std::filesystem::path(file).stem().string() : changes.title;
  drill->solo.tempo_bpm = goal_bpm;
  drill->solo.part = "Practice line";
  if (command.instrument) set_instrument(drill->solo, *command.instrument);
  const reports::DrillReport report{*drill, settings, why, goal_bpm, check_aim(*drill, settings)};
  write_files(command, report);
  write_to_standard_output(reports::drill_plan_text(report) +
                           (command.play.wav ? "\n" + volume_line(*command.play.wav) : ""));
}

void add_figure_options(CLI::App& command, DrillCommand& options) {
  const std::string group = "What is practised";
  static const std::map<std::string, Inversion> inversions{{"root", Inversion::root_position},
                                                           {"first", Inversion::first},
                                                           {"second", Inversion::second},
                                                           {"third", Inversion::third}};
  DrillSettings& settings = options.settings;
  const auto arpeggios = [&settings] { settings.kind = DrillKind::arpeggios; };
  auto* common = command.add_flag_callback(
      "--common-tones", [&settings] { settings.kind = DrillKind::common_tones; },
      "The line of nearest tones, but a tone that both chords have is sounded again");
  auto* way = command.add_option_function<std::string>(
      "--arpeggios",
      [&settings, arpeggios](const std::string& word) {
        arpeggios();
        settings.way = word == "up" ? Way::up : Way::down;
      },
      "Every chord as one arpeggio, all in this direction; down starts from above");
  way->check(CLI::IsMember({"up", "down"}))->option_text("up|down");
  auto* inversion = command.add_option_function<std::string>(
      "--inversion",
      [&settings, arpeggios](const std::string& word) {
        arpeggios();
        settings.every_inversion = word == "every";
        if (word != "every") settings.inversion = inversions.at(word);
      },
      "Every arpeggio in this inversion, named by its lowest tone; `every` takes one after the other, each a chorus");
  inversion->check(CLI::IsMember({"root", "first", "second", "third", "every"}))
      ->option_text("root|first|second|third|every");
  auto* from = command.add_option_function<int>(
      "--from",
      [&settings, arpeggios](int number) {
        arpeggios();
        settings.from_tone = number;
      },
      "Every arpeggio from this tone: 3 is each chord's own third");
  from->check(CLI::IsMember({1, 3, 5, 7}))->option_text("1|3|5|7");
  auto* cell = command.add_option_function<std::string>(
      "--cell",
      [&settings](const std::string& text) {
        std::string ignored;
        settings.kind = DrillKind::cells;
        settings.cells = {*parsed_cell(text, ignored)};
      },
      "These tones of every chord, in this order, as in \"7 3 5\" or 3-5-9");
  cell->check(CLI::Validator(not_a_cell, ""))->option_text("TONES");
  inversion->excludes(from);
  for (CLI::Option* one : {common, cell})
    for (CLI::Option* other : {common, way, inversion, from, cell})
      if (one != other) one->excludes(other);
  for (CLI::Option* option : {common, way, inversion, from, cell}) option->group(group);
  add_aim_options(command, settings);
  add_sheet_solo_options(command, options.solo);
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
      ->group(group)
      ->excludes(command.get_option("--range"));
  command
      .add_option_function<std::string>(
          "--rhythm", [&settings](const std::string& word) { settings.rhythm = rhythms.at(word); },
          "Default: eighths; off-beat starts half a beat late, three-over-four runs across the bar lines")
      ->check(CLI::IsMember({"quarters", "eighths", "triplets", "off-beat", "three-over-four"}))
      ->option_text("RHYTHM")
      ->group(group);
  auto* sparse = command.add_option("--tones-a-bar", settings.tones_a_bar, "Only so many tones a bar, for lines");
  sparse->check(CLI::Range(1, most_tones_a_bar))->option_text("N")->group(group);
  for (const char* figure : {"--arpeggios", "--inversion", "--from", "--cell", "--like", "--gaps", "--guide-tones",
                             "--enclose-thirds", "--straight-down"})
    sparse->excludes(command.get_option(figure));
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
      ->check(CLI::Range(slowest, fastest))
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
  command->add_option("--changes", options->changes, "The changes to practise over, a .changes file")
      ->required()
      ->option_text("FILE");
  command
      ->add_option_function<std::string>(
          "--key", [options](const std::string& name) { options->tonic = parse_note_name(name); },
          "The changes in this key, by its tonic; major stays major and minor minor")
      ->check(CLI::Validator(not_a_tonic, ""))
      ->option_text("TONIC");
  add_figure_options(*command, *options);
  add_line_options(*command, *options);
  add_sheet_options(*command, *options);
  add_play_along_options(*command, options->play);
  command->footer(drill_examples);
  command->callback([options, command] {
    check_aims(*command);
    make_drill(*options);
  });
}

}  // namespace insideline::cli
