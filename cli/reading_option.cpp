#include "cli/reading_option.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>

namespace insideline::cli {
namespace {

/// As the part has it, name by name. Where it goes over to another instrument there is no one pitch of the part, and
/// names stay in concert pitch.
ChosenReading read_by_player(const Solo& solo) {
  const Interval up = -solo.sounding_minus_written;
  const auto moves_otherwise = [&](const Note& note) { return interval_between(note.pitch, note.written) != up; };
  if (up.semitones == 0 || std::ranges::any_of(solo.notes, moves_otherwise)) return {};
  return {{.reader = reports::ReadBy::player_of_the_part, .above_sounding = up, .instrument = {}}, {up}};
}

ChosenReading read_by_player_of(const Instrument& instrument, const Solo& solo, const Harmony& harmony,
                                const std::optional<Key>& key) {
  constexpr int steps_in_octave = 7;
  Interval up = -instrument.sounding_minus_written;
  const PitchRange range = written_range(instrument);
  reports::Reading reading{
      .reader = reports::ReadBy::player_of_an_instrument, .above_sounding = {}, .instrument = instrument};
  reading.octaves = octaves_into_range(solo, up.semitones, range);
  up.steps += reading.octaves * steps_in_octave;
  up.semitones += reading.octaves * semitones_in_octave;
  reading.notes_outside = notes_outside(solo, up.semitones, range);
  reading.above_sounding = readable_interval(up, key, harmony);
  return {reading, {reading.above_sounding, Respelling::usual, key}};
}

}  // namespace

std::string not_an_instrument(const std::string& text) {
  if (instrument_named(text)) return {};
  return "'" + text + "' is no instrument known here; known are: " + instrument_names();
}

ChosenReading chosen_reading(const ReadingChoice& choice, const Solo& solo, const Harmony& harmony,
                             const std::optional<Key>& key) {
  switch (choice.reader) {
    case reports::ReadBy::everybody: return {};
    case reports::ReadBy::player_of_the_part: return read_by_player(solo);
    case reports::ReadBy::player_of_an_instrument: return read_by_player_of(*choice.instrument, solo, harmony, key);
  }
  return {};
}

CLI::Option* add_instrument_option(CLI::App& command, const std::function<void(const Instrument&)>& choose,
                                   const std::string& what) {
  const auto named = [choose](const std::string& name) { choose(*instrument_named(name)); };
  auto* option = command.add_option_function<std::string>("--for", named, what);
  return option->check(CLI::Validator(not_an_instrument, ""))->option_text("INSTRUMENT");
}

void add_reading_pitch_options(CLI::App& command, ReadingChoice& choice) {
  const std::string group = "In whose pitch";
  choice.reader = reports::ReadBy::player_of_the_part;
  auto* written = command.add_flag_callback(
      "--written", [&choice] { choice.reader = reports::ReadBy::player_of_the_part; },
      "Every name as the player of the part reads it (the default)");
  auto* concert = command.add_flag_callback(
      "--concert", [&choice] { choice.reader = reports::ReadBy::everybody; }, "Every name in concert pitch");
  const auto choose = [&choice](const Instrument& named) {
    choice.reader = reports::ReadBy::player_of_an_instrument;
    choice.instrument = named;
  };
  auto* instrument = add_instrument_option(
      command, choose, "Every name as the player of this instrument reads it: " + instrument_names());
  concert->excludes(written);
  instrument->excludes(written)->excludes(concert);
  for (CLI::Option* option : {written, concert, instrument}) option->group(group);
}

}  // namespace insideline::cli
