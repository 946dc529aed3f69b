#include "cli/recording_options.hpp"

#include "cli/midi_options.hpp"
#include "cli/number_check.hpp"
#include "io/audio/sound_file.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

namespace insideline::cli {
namespace {

// Of any instrument that is listened to: a fourth below a bass, a third above a flute.
constexpr int lowest_listened_midi = 23;
constexpr int highest_listened_midi = 103;

std::string not_a_listening_range(const std::string& text) {
  if (instrument_named(text)) return {};
  if (const auto range = parse_pitch_range(text))
    return range->lowest >= lowest_listened_midi && range->highest <= highest_listened_midi
               ? std::string{}
               : "'" + text + "' is wider than is listened for, B0 to G7";
  return "'" + text + "' is no range; write two notes, low before high, as in F3-C5, or one of: " + instrument_names();
}

io::ListeningRange listening_range(const ListeningOptions& options, const Solo* sheet) {
  if (options.range) return {options.range->lowest, options.range->highest};
  if (sheet == nullptr || sheet->notes.empty()) return {};
  const auto [lowest, highest] =
      std::ranges::minmax_element(sheet->notes, {}, [](const Note& note) { return midi_number(note.pitch); });
  return {std::max(lowest_listened_midi, midi_number(lowest->pitch) - semitones_in_octave),
          std::min(highest_listened_midi, midi_number(highest->pitch) + semitones_in_octave)};
}

/// "0:12"
std::string moment_in_words(double seconds) {
  const auto whole = static_cast<int>(seconds);
  constexpr int minute = 60;
  return fmt::format("{}:{:02}", whole / minute, whole % minute);
}

std::string bar_name(const Solo& solo, const Note& note) {
  return note.place.bar.empty() ? std::to_string(solo.bars[bar_index_at(solo, note.onset)].number) : note.place.bar;
}

/// `bars` by note; none at all, or empty for one: it is named by its time.
reports::FromSound unsure_notes(const io::HeardLine& line, std::span<const std::string> bars) {
  reports::FromSound sound{.notes = static_cast<int>(line.notes.size()), .unsure = 0, .places = {}};
  for (std::size_t i = 0; i < line.notes.size(); ++i) {
    if (io::is_sure(line.notes[i])) continue;
    ++sound.unsure;
    const bool has_bar = i < bars.size() && !bars[i].empty();
    const std::string place = has_bar ? "bar " + bars[i] : moment_in_words(line.notes[i].onset_seconds);
    if (std::ranges::find(sound.places, place) == sound.places.end()) sound.places.push_back(place);
  }
  return sound;
}

/// Into a report that is not analysed yet, with the warnings of the recording.
void add_what_was_heard(const SoloBytes& bytes, reports::Report& report) {
  if (!bytes.heard) return;
  report.from_sound = from_sound(bytes, report.solo);
  std::vector<std::string> warnings;
  for (const io::Warning& warning : bytes.heard->warnings) warnings.push_back(to_string(warning));
  report.warnings.insert(report.warnings.begin(), warnings.begin(), warnings.end());
}

}  // namespace

void add_recording_options(CLI::App& command, ListeningOptions& options) {
  const std::string group = "From a recording";
  command
      .add_option_function<std::string>(
          "--range",
          [&options](const std::string& text) {
            const auto instrument = instrument_named(text);
            options.range = instrument ? sounding_range(*instrument) : *parse_pitch_range(text);
          },
          "Listen for nothing but these sounding notes, as in F3-C5, or for an instrument, as in alto-sax; default: an "
          "octave beyond the sheet, else any instrument")
      ->check(CLI::Validator(not_a_listening_range, ""))
      ->option_text("LOW-HIGH|INSTRUMENT")
      ->group(group);
  constexpr double slowest = 20.0;
  constexpr double fastest = 400.0;
  command
      .add_option("--tempo", options.tempo_bpm,
                  "Quarter notes a minute of the recording; default: that of a count-in of three clicks or more")
      ->check(CLI::Validator([](const std::string& text) { return not_between(text, slowest, fastest); }, ""))
      ->option_text("BPM")
      ->group(group);
  command.add_option("--heard-midi", options.heard_midi, "Write a MIDI file of what was heard")
      ->option_text("FILE")
      ->group(group);
}

void check(const ListeningOptions& options, const std::string& solo, Destinations& destinations) {
  destinations.add("--heard-midi", options.heard_midi);
  if (io::is_recording(solo)) return;
  const char* const option = options.range        ? "--range"
                             : options.tempo_bpm  ? "--tempo"
                             : options.heard_midi ? "--heard-midi"
                                                  : nullptr;
  if (option != nullptr) throw CLI::ValidationError(option, "is for a recording, and " + solo + " is none");
}

SoloBytes read_or_heard(const SoloOptions& solo, const ListeningOptions& options, Beat beat, const Solo* sheet) {
  if (!io::is_recording(solo.solo)) {
    std::string bytes = io::read_solo_bytes(solo.solo);
    check_midi_options(solo, bytes);
    return {std::move(bytes), std::nullopt};
  }
  io::RecordingOptions listening{.range = listening_range(options, sheet), .tempo_bpm = options.tempo_bpm};
  if (solo.beats_file) listening.beats = io::RecordingBeats::known_elsewhere;
  SoloBytes result;
  result.heard = io::read_recording(solo.solo, listening);
  if (beat == Beat::needed && !result.heard->has_beats && !solo.beats_file)
    throw io::ReadError(
        io::place_of(file_name(solo.solo)),
        "where the beats are is not known: no count-in of clicks was heard; say the tempo with --tempo, "
        "or tap the beats into a file for --beats");
  result.bytes = result.heard->midi;
  return result;
}

std::optional<reports::FromSound> from_sound(const SoloBytes& bytes, const Solo& solo) {
  if (!bytes.heard) return std::nullopt;
  std::vector<std::string> bars;
  if (bytes.heard->has_beats && solo.notes.size() == bytes.heard->line.notes.size())
    for (const Note& note : solo.notes) bars.push_back(bar_name(solo, note));
  return unsure_notes(bytes.heard->line, bars);
}

std::optional<reports::FromSound> from_sound(const SoloBytes& bytes, const Solo& take, const Solo& sheet,
                                             const TakeAlignment& alignment) {
  if (!bytes.heard) return std::nullopt;
  std::vector<std::string> bars(take.notes.size());
  if (take.notes.size() != bytes.heard->line.notes.size()) bars.clear();
  std::vector<std::string> bars_of_sheet;
  for (const Note& note : sheet.notes)
    if (!note.grace) bars_of_sheet.push_back(bar_name(sheet, note));
  for (const Attempt& attempt : alignment.attempts)
    if (attempt.take && *attempt.take < bars.size()) bars[*attempt.take] = bars_of_sheet.at(attempt.sheet);
  return unsure_notes(bytes.heard->line, bars);
}

void leave_out_lateness(std::optional<TimeFeel>& feel) {
  if (!feel) return;
  feel->by_beat.clear();
  feel->off_beat.reset();
  if (std::abs(feel->on_beat.mean_ms) <= reports::attack_ms) feel->on_beat = {};
}

std::vector<PendingFile> heard_midi_file(const SoloBytes& bytes, const ListeningOptions& options) {
  std::vector<PendingFile> files;
  if (bytes.heard && options.heard_midi) files.emplace_back(*options.heard_midi, bytes.heard->midi);
  return files;
}

ReadSolo read_over_changes(const SoloOptions& options, SoloBytes& bytes) {
  const bool is_open = bytes.heard && bytes.heard->half_beat_off;
  ReadSolo read = read_with_changes(options, bytes.bytes, is_open ? Fit::needed : Fit::not_needed);
  if (is_open) {
    ReadSolo other = read_with_changes(options, bytes.heard->half_beat_off->midi, Fit::needed);
    if (read.fit && other.fit && *other.fit > *read.fit + bytes.heard->half_beat_off->behind) {
      bytes.bytes = bytes.heard->midi = bytes.heard->half_beat_off->midi;
      read = std::move(other);
    }
  }
  add_what_was_heard(bytes, read.frame);
  return read;
}

}  // namespace insideline::cli
