// insideline changes FILE: a chart in another key, for a transposing instrument, or spelled otherwise.
#include "analyzer/chord_spelling.hpp"
#include "analyzer/drills/instruments.hpp"
#include "analyzer/key_moves.hpp"
#include "cli/chart_options.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "cli/reading_option.hpp"
#include "io/changes/changes_file.hpp"
#include "io/changes/chart_writer.hpp"
#include "io/changes/rewritten_chart.hpp"
#include "io/file_bytes.hpp"
#include "io/read_result.hpp"
#include "io/read_solo.hpp"
#include "io/solo_files.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace insideline::cli {
namespace {

struct ChangesCommand {
  std::string file;
  std::string output = "-";
  std::optional<std::string> tune;
  std::optional<NoteName> tonic;
  std::optional<int> half_steps;  ///< up; down is negative
  std::optional<Instrument> instrument;
  std::optional<Accidentals> accidentals;
};

constexpr const char* changes_examples =
    "Examples:\n"
    "  insideline changes tune.changes --to Ab\n"
    "      The chart in A flat, or in A flat minor where it is in minor.\n"
    "  insideline changes tune.changes --for alto-sax -o tune-alto.changes\n"
    "      As the alto player reads it.\n"
    "  insideline changes solo.musicxml -o solo.changes\n"
    "      The chords of a score as a chart.\n";

std::string not_a_chart_name(const std::string& destination) {
  if (is_standard_output(destination) || std::filesystem::path(destination).extension() == ".changes") return {};
  return "'" + destination + "' does not end in .changes, which is what is written";
}

/// What was asked for, one thing after the other: the key, the half steps, the instrument, the spelling.
io::ChartRewriting rewriting_for(const ChangesCommand& command, const Changes& changes, const std::string& file) {
  Interval by;
  std::optional<Key> key = changes.key;
  if (command.tonic) key = key_on(*command.tonic, key_of_chart(changes, file, "--to"), file);
  if (command.half_steps) by = usual_interval(*command.half_steps);
  if (command.instrument) {
    const Interval& down = command.instrument->sounding_minus_written;
    by = {by.steps - down.steps, by.semitones - down.semitones};
  }
  if (!key) return {by, command.accidentals};
  if (by != Interval{}) key = usual_spelling(transposed(*key, by));
  if (command.accidentals) key = spelled_with(*key, *command.accidentals);
  return {interval_between(*changes.key, *key), command.accidentals};
}

std::string chart_from_solo(const ChangesCommand& command, const std::string& file) {
  const io::ReadResult read = io::read_solo(command.file, {.tune = command.tune});
  for (const io::Warning& warning : read.warnings) print_warning(to_string(warning));
  if (!read.changes || read.changes->spans.empty())
    throw io::ReadError(io::place_of(file), "it has no chord symbols, so there is no chart to write");
  Changes chart = io::chart_of_solo(read.solo, *read.changes);
  if (chart.title.empty()) chart.title = std::filesystem::path(file).stem().string();
  const io::ChartRewriting how = rewriting_for(command, chart, file);
  if (chart.key) chart.key = transposed(*chart.key, how.by);
  for (ChordSpan& span : chart.spans)
    if (span.chord) span.chord = io::rewritten(*span.chord, how);
  const io::WrittenChart written = io::write_chart(chart, read.solo.tempo_bpm);
  for (const int bar : written.moved)
    print_warning(fmt::format("{}: bar {}: a chord that begins within a beat is written on the nearest", file, bar));
  return written.text;
}

std::string chart_from_changes(const ChangesCommand& command, const std::string& file) {
  constexpr std::size_t largest = 1024UL * 1024UL;
  const std::string bytes = io::read_bytes(command.file, largest);
  const io::ChartReading chart = io::parse_chart(bytes, file);
  for (const io::Warning& warning : chart.warnings) print_warning(to_string(warning));
  return io::rewritten_chart(bytes, file, rewriting_for(command, chart.changes, file));
}

void write_changes(const ChangesCommand& command) {
  Destinations destinations;
  destinations.add("--output", command.output);
  destinations.spare(command.file);
  const std::string file = std::filesystem::path(command.file).filename().string();
  const bool is_solo = io::is_solo_name(command.file);
  if (command.tune && !is_solo) throw CLI::ValidationError("--tune", "is for an ABC file with several tunes");
  const std::string text = is_solo ? chart_from_solo(command, file) : chart_from_changes(command, file);
  if (is_standard_output(command.output)) return write_to_standard_output(text);
  PendingFile chart(command.output, text);
  chart.commit();
}

void add_moves(CLI::App& command, ChangesCommand& options) {
  constexpr int most_half_steps = 11;
  static const std::map<std::string, Accidentals> spellings{{"flats", Accidentals::flats},
                                                            {"sharps", Accidentals::sharps}};
  auto* to = command.add_option_function<std::string>(
      "--to", [&options](const std::string& name) { options.tonic = parse_note_name(name); },
      "Into the key of this tonic; major stays major and minor minor");
  to->check(CLI::Validator(not_a_tonic, ""))->option_text("TONIC");
  auto* up = command.add_option_function<int>(
      "--up", [&options](int number) { options.half_steps = number; }, "So many half steps up");
  up->check(CLI::Range(1, most_half_steps))->option_text("N");
  auto* down = command.add_option_function<int>(
      "--down", [&options](int number) { options.half_steps = -number; }, "So many half steps down");
  down->check(CLI::Range(1, most_half_steps))->option_text("N");
  to->excludes(up)->excludes(down);
  up->excludes(down);
  add_instrument_option(
      command, [&options](const Instrument& instrument) { options.instrument = instrument; },
      "As the player of this instrument reads it, such as alto-sax or trumpet");
  command
      .add_option_function<std::string>(
          "--spell", [&options](const std::string& word) { options.accidentals = spellings.at(word); },
          "Chords and, where seven signs are enough, the key with flats or with sharps")
      ->check(CLI::IsMember({"flats", "sharps"}))
      ->option_text("flats|sharps");
}

}  // namespace

void add_changes_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("changes", "Write a chart in another key, or the chords of a score as one");
  const auto options = std::make_shared<ChangesCommand>();
  command->add_option("FILE", options->file, "A .changes file, or a solo with chord symbols")->required();
  command
      ->add_option("--tune", options->tune,
                   "The tune of an ABC file that holds several, by its number or title; default: the first with notes")
      ->option_text("NUMBER|TITLE");
  add_moves(*command, *options);
  command->add_option("-o,--output", options->output, "The chart, a .changes file; default: standard output")
      ->check(CLI::Validator(not_a_chart_name, ""))
      ->option_text("FILE");
  command->footer(changes_examples);
  command->callback([options] { write_changes(*options); });
}

}  // namespace insideline::cli
