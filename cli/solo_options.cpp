#include "cli/solo_options.hpp"

#include "cli/recording_options.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/model/sections.hpp"
#include "analyzer/phrases.hpp"
#include "analyzer/spelling.hpp"
#include "cli/hearing_option.hpp"
#include "cli/midi_options.hpp"
#include "cli/placing.hpp"
#include "cli/section_option.hpp"
#include "io/changes/changes_file.hpp"
#include "io/read_solo.hpp"
#include "io/solo_files.hpp"
#include "reports/text/display_width.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <filesystem>
#include <map>
#include <utility>
#include <vector>

namespace insideline::cli {
namespace {

constexpr int widest_transposition = 48;  // semitones; no instrument is written further from its sound

/// Empty for a length of nothing or more, as CLI11 wants it.
std::string not_a_length(const std::string& text) {
  const auto length = parse_beats(text);
  if (length && *length >= Beats(0)) return {};
  return "'" + text + "' is not a length in quarter notes, such as 1, 1/2 or 0.5";
}

void add_hearing_options(CLI::App& command, Settings& settings) {
  const std::string group = "How it is heard";
  command
      .add_flag_callback(
          "--strict", [&settings] { settings.hearing = Hearing::strict; },
          "Hear every note against the chord sounding at that moment: no anticipations, no suspensions")
      ->group(group);
  auto* straight = command.add_flag_callback(
      "--straight", [&settings] { settings.feel = Feel::straight; }, "Eighth notes are even");
  auto* swing = command.add_flag_callback(
      "--swing", [&settings] { settings.feel = Feel::swing; },
      "Eighth notes swing, and lean on the beat (the default)");
  straight->group(group);
  swing->group(group)->excludes(straight);
  command
      .add_option_function<std::string>(
          "--held-tension", [&settings](const std::string& text) { settings.held_tension = *parse_beats(text); },
          "A tension at least this long counts as held, in quarter notes; default 1")
      ->check(CLI::Validator(not_a_length, ""))
      ->option_text("QUARTERS")
      ->group(group);
}

std::string changes_place(io::ChangesPlace place) {
  switch (place) {
    case io::ChangesPlace::in_score: return "in score";
    case io::ChangesPlace::in_markers: return "in markers";
    case io::ChangesPlace::in_chord_track: return "in chord track";
  }
  return {};
}

/// What was written where chords stand and cannot be read as one, in brackets; empty where there is nothing.
std::string what_was_no_chord(const io::ReadResult& read) {
  for (const io::Warning& warning : read.warnings)
    for (const std::string_view sign : {"is no chord", "read as chord symbols", "could not be read", "cannot be read"})
      if (warning.message.find(sign) != std::string::npos)
        return fmt::format(" that can be read ({})", warning.message);
  return {};
}

/// The changes in sounding pitch, and what they are called in the report.
io::ChartReading chosen_changes(const SoloOptions& options, const io::ReadResult& read, reports::Source& source) {
  if (options.changes) {
    io::ChartReading chart = io::read_chart(*options.changes);
    source.changes_file = file_name(*options.changes);
    if (options.changes_pitch == ChangesPitch::written)
      chart.changes = transposed(chart.changes, read.solo.sounding_minus_written);
    return chart;
  }
  if (read.changes && !read.changes->spans.empty()) {
    source.changes_file = changes_place(read.changes_place);
    return {.changes = *read.changes, .tempo_bpm = std::nullopt, .warnings = {}};
  }
  if (const auto beside = io::changes_beside(options.solo)) {
    SoloOptions with_file = options;
    with_file.changes = *beside;
    return chosen_changes(with_file, read, source);
  }
  const std::string own_name = std::filesystem::path(options.solo).stem().string() + ".changes";
  throw io::ReadError(
      io::place_of(file_name(options.solo)),
      fmt::format("it has no chord symbols{}; write the changes into a text file {} beside it, or give one "
                  "with {} FILE",
                  what_was_no_chord(read), own_name, options.changes_option));
}

reports::PartChoice part_choice(const SoloOptions& options, const io::ReadResult& read) {
  if (options.reading.part) return reports::PartChoice::asked_for;
  switch (read.part_taken) {
    case io::PartTaken::first_line: return reports::PartChoice::first_line;
    case io::PartTaken::nearest_line: return reports::PartChoice::nearest_line;
    case io::PartTaken::only_one: return reports::PartChoice::only_one;
  }
  return reports::PartChoice::first_line;
}

/// "section B", and where it is: "section A (the first of 3, bars 1 to 8)".
std::string name_in_solo(const Section& section, const Harmony& harmony) {
  if (section.kind != SectionKind::named) return name_of(section);
  const std::size_t index = sections_named(harmony.sections, section.name).front();
  const SoundingSection& found = harmony.sections[index];
  const SectionPlace place = place_among_its_name(harmony.sections, index);
  const std::string bars =
      name_of(Section{.kind = SectionKind::bars, .first = found.first_bar, .last = found.last_bar, .name = {}});
  const std::string which = place.of == 1 ? "" : fmt::format("number {} of {}, ", place.number, place.of);
  return fmt::format("section {} ({}{})", reports::printable(found.name), which, bars);
}

/// Throws where the solo has no such part.
void take_section(reports::Report& report, const Harmony& harmony, const Section& section) {
  if (section.kind == SectionKind::named && sections_named(harmony.sections, section.name).empty())
    throw io::ReadError(io::place_of(report.source.solo_file), no_such_section(section.name, harmony));
  auto part = analyze_section(report.solo, harmony, section, report.settings);
  if (!part)
    throw io::ReadError(io::place_of(report.source.solo_file),
                        fmt::format("it has no notes in {}; its bars are {} to {}, its choruses {}, its phrases {}",
                                    name_of(section), report.solo.bars.front().number, report.solo.bars.back().number,
                                    harmony.choruses, find_phrases(report.solo, harmony, report.settings).size()));
  report.source.section = name_in_solo(section, harmony);
  report.solo = std::move(part->solo);
  report.analysis = std::move(part->analysis);
}

/// Moves the solo and the key of its changes, and gives back the harmony that goes with them.
Harmony moved_to(const ChosenReading& chosen, reports::Report& report, const Harmony& harmony) {
  report.reading = chosen.reading;
  if (chosen.pitch.above_sounding == Interval{}) return harmony;
  Settings only_labels = report.settings;
  only_labels.detail = insideline::Detail::first_page;
  const auto labels = label_notes(report.solo, harmony, find_phrases(report.solo, harmony, only_labels), only_labels);
  ReadLine line = read_in(chosen.pitch, report.solo, harmony, labels);
  report.solo = std::move(line.solo);
  if (auto& key = report.source.changes_key) key = transposed(*key, chosen.pitch.above_sounding);
  return std::move(line.harmony);
}

}  // namespace

std::string file_name(const std::string& path) { return std::filesystem::path(path).filename().string(); }

void add_solo_options(CLI::App& command, SoloOptions& options) {
  command.add_option("SOLO", options.solo, "The transcribed solo, a MusicXML, ABC or MIDI file")->required();
  add_reading_options(command, options);
  add_hearing_file_option(command, options);
}

void add_reading_options(CLI::App& command, SoloOptions& options) {
  static const std::map<std::string, ChangesPitch> pitches{{"concert", ChangesPitch::concert},
                                                           {"written", ChangesPitch::written}};
  const std::string group = "What is read";
  command.add_option("--changes", options.changes, "The changes, where the score has none or others are wanted")
      ->option_text("FILE")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--changes-pitch", [&options](const std::string& word) { options.changes_pitch = pitches.at(word); },
          "Whether the changes file is in concert pitch (the default) or in the solo's written pitch")
      ->check(CLI::IsMember({"concert", "written"}))
      ->option_text("concert|written")
      ->group(group);
  command
      .add_option("--start-bar", options.start_bar,
                  "The bar of the solo that falls on bar 1 of the changes; 1 (the default) is the first full bar")
      ->check(CLI::Range(-furthest_bar, furthest_bar))
      ->option_text("N")
      ->group(group);
  command
      .add_option("--part,--track", options.reading.part,
                  "The part that holds the solo, by name or number; default: the first with a single melodic line")
      ->option_text("NAME|NUMBER")
      ->group(group);
  command
      .add_option("--voice", options.reading.voice,
                  "The voice of that part, as the score numbers them; default: the single melodic line")
      ->option_text("VOICE")
      ->group(group);
  command
      .add_option("--tune", options.reading.tune,
                  "The tune of an ABC file that holds several, by its number or title; default: the first with notes")
      ->option_text("NUMBER|TITLE")
      ->group(group);
  command
      .add_flag_callback(
          "--as-written", [&options] { options.reading.road_map = io::RoadMap::as_written; },
          "Read the page once from left to right; otherwise repeats, endings and jumps are played")
      ->group(group);
  command
      .add_option("--transpose", options.reading.transpose,
                  "From written to sounding pitch, where the file does not say; a B flat tenor part is -14")
      ->check(CLI::Range(-widest_transposition, widest_transposition))
      ->option_text("SEMITONES")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--section", [&options](const std::string& text) { options.section = parsed_section(text); },
          "Only a part of it: bars (9-16), a chorus ('chorus 2'), a phrase ('phrase 3') or a lettered section (B, "
          "'last A', 'second A', 'B of chorus 2'); its notes are heard as in the whole")
      ->check(CLI::Validator(not_a_section, ""))
      ->option_text("PART")
      ->group(group);
  add_midi_options(command, options);
  add_hearing_options(command, options.settings);
  add_no_hearing_option(command, options);
}

ReadSolo read_with_changes(const SoloOptions& options, std::string_view solo_bytes, Fit fit) {
  io::ReadOptions reading = options.reading;
  if (options.beats_file) reading.beats = io::read_beats_file(*options.beats_file);
  io::ReadResult read = io::parse_solo(solo_bytes, file_name(options.solo), reading);
  ReadSolo result;
  reports::Report& report = result.frame;
  report.source.solo_file = file_name(options.solo);
  report.settings = options.settings;
  report.source.has_own_symbols = read.changes && !read.changes->spans.empty();
  report.source.part_choice = part_choice(options, read);
  const io::ChartReading chart = chosen_changes(options, read, report.source);
  const Changes& changes = chart.changes;
  if (!read.solo.tempo_bpm) read.solo.tempo_bpm = chart.tempo_bpm;
  report.source.changes_title = changes.title;
  report.source.changes_key = changes.key;
  if (changes.extent == Extent::looping) {
    report.alignment.emplace().start_bar = options.start_bar;
    place_bar_one(read, changes, report);
  }
  if (fit == Fit::needed) result.fit = fit_over_chart(changes, read.solo, options);
  const std::vector<std::string> doubts = doubts_about_place(changes, read, options, report);
  result.harmony = lay_out(changes, read.solo, {.start_bar = options.start_bar});
  report.solo = spelled_by_harmony(std::move(read.solo), result.harmony);
  take_hearing(options, result.harmony, report);
  if (!read.keeps_to_beats)
    report.warnings.push_back(
        report.source.solo_file +
        ": the line does not follow the beats of the file, so that its bars and beats mean little; "
        "tap the beats into a file for --beats, or play it again to a click");
  for (const io::Warning& warning : read.warnings) report.warnings.push_back(to_string(warning));
  for (const io::Warning& warning : chart.warnings) report.warnings.push_back(to_string(warning));
  report.warnings.insert(report.warnings.end(), doubts.begin(), doubts.end());
  return result;
}

reports::Report analyzed(const ReadSolo& read, const SoloOptions& options, const ReadingChoice& pitch) {
  reports::Report report = read.frame;
  const std::optional<Key>& key = report.source.changes_key;
  const ChosenReading chosen =
      chosen_reading(pitch, report.solo, read.harmony, key ? key : key_at(report.solo, Beats(0)));
  Harmony harmony = moved_to(chosen, report, read.harmony);
  if (options.section)
    take_section(report, harmony, *options.section);
  else
    report.analysis = analyze(report.solo, std::move(harmony), report.settings);
  if (report.from_sound) leave_out_lateness(report.analysis.time_feel);
  for (const std::string& warning : report.analysis.warnings) report.warnings.push_back(warning);
  return report;
}

reports::Report analyzed(const SoloOptions& options) { return analyzed(options, io::read_solo_bytes(options.solo)); }

reports::Report analyzed(const SoloOptions& options, std::string_view solo_bytes) {
  return analyzed(read_with_changes(options, solo_bytes), options, options.pitch);
}

}  // namespace insideline::cli
