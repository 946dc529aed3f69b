#include "cli/play_along.hpp"

#include "analyzer/metre.hpp"
#include "cli/command.hpp"
#include "cli/number_check.hpp"
#include "cli/solo_options.hpp"
#include "cli/synthesizer.hpp"
#include "io/read_result.hpp"
#include "reports/drill_plan.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <map>

namespace insideline::cli {
namespace {

constexpr double even = 1.0;
constexpr double most_swung = 3.5;  // where published ratios end: Friberg & Sundstroem, Music Perception 19(3), 2002

/// Swing without anything that it moves is a wrong command line.
void expect_eighths(const Solo& line, const io::PracticeMidiOptions& options) {
  if (!options.swing_hundredths || options.chords == io::ChordSound::comped) return;
  constexpr int unmistakable = 200;
  const bool swings = std::ranges::any_of(
      line.notes, [](const Note& note) { return io::swung(note.onset, unmistakable) != note.onset; });
  if (!swings)
    throw CLI::ValidationError("--swing", "nothing stands off the beat; it goes with eighths or --chords comped");
}

std::string midi_of(const PlayAlong& play, const Drill& drill, const std::vector<double>& tempos) {
  const Bar& first = drill.solo.bars.front();
  if (play.midi.swing_hundredths && felt_beat(first.meter) != Beats(1))
    throw io::ReadError(
        io::place_of("--swing"),
        fmt::format("no eighths swing in {}, where a beat is not a quarter note", to_string(first.meter)));
  expect_eighths(drill.solo, play.midi);
  io::PracticeMidiOptions options = play.midi;
  options.tempos_bpm = tempos;
  return io::write_practice_midi(drill.solo, drill.harmony, options);
}

std::vector<double> ladder_of(double goal_bpm) {
  std::vector<double> tempos;
  for (const int bpm : reports::tempo_ladder(goal_bpm)) tempos.push_back(bpm);
  return tempos;
}

}  // namespace

void add_play_along_options(CLI::App& command, PlayAlong& play) {
  const std::string group = "What is played (with -o SHEET.mid or --wav)";
  const auto add = [&](const std::string& name, const char* help, const char* words, auto&& take) {
    return command.add_option_function<std::string>(name, take, help)->option_text(words)->group(group);
  };
  static const std::map<std::string, int> bars{{"none", 0}, {"one", 1}, {"two", 2}, {"four", 4}};
  static const std::map<std::string, io::ChordSound> sounds{
      {"held", io::ChordSound::held}, {"comped", io::ChordSound::comped}, {"none", io::ChordSound::none}};
  add("--ladder", "Every tempo of the ladder: one after the other in one file, or a file for each, as sheet-60.mid",
      "together|apart",
      [&play](const std::string& word) { play.ladder = word == "apart" ? Ladder::apart : Ladder::together; })
      ->check(CLI::IsMember({"together", "apart"}));
  add("--count-in", "Bars of clicks before the line; default: one", "none|one|two|four",
      [&play](const std::string& word) { play.midi.count_in_bars = bars.at(word); })
      ->check(CLI::IsMember({"none", "one", "two", "four"}));
  command
      .add_flag_callback(
          "--click", [&play] { play.midi.clicks = io::Clicks::throughout; },
          "Clicks throughout, not only before the line")
      ->group(group);
  add("--chords",
      "The chords under the line: held, struck on the beat and a beat and a half later, or none; default: held",
      "held|comped|none", [&play](const std::string& word) { play.midi.chords = sounds.at(word); })
      ->check(CLI::IsMember({"held", "comped", "none"}));
  constexpr double hundredths = 100.0;
  add("--swing", "How much longer the first of two eighths is than the second, 1 to 3.5; default: 1, even", "RATIO",
      [&play](const std::string& word) {
        play.midi.swing_hundredths = static_cast<int>(std::lround(std::stod(word) * hundredths));
      })
      ->check(CLI::Validator([](const std::string& text) { return not_between(text, even, most_swung); }, ""));
  add("--wav", "The same as sound; FluidSynth plays it", "FILE", [&play](const std::string& word) { play.wav = word; });
}

std::vector<NamedBytes> play_along_files(const PlayAlong& play, const std::string& sheet, const Drill& drill,
                                         double goal_bpm) {
  if (!play.ladder) return {{sheet, midi_of(play, drill, {})}};
  if (play.ladder == Ladder::together) return {{sheet, midi_of(play, drill, ladder_of(goal_bpm))}};
  std::vector<NamedBytes> files;
  for (const int bpm : reports::tempo_ladder(goal_bpm)) {
    std::filesystem::path file(sheet);
    file.replace_filename(fmt::format("{}-{}{}", file.stem().string(), bpm, file.extension().string()));
    files.push_back({file.string(), midi_of(play, drill, {static_cast<double>(bpm)})});
  }
  return files;
}

NamedBytes sound_file(const PlayAlong& play, const Drill& drill, double goal_bpm) {
  const std::vector<double> tempos = play.ladder ? ladder_of(goal_bpm) : std::vector{goal_bpm};
  const double quarters =
      to_double(end_of(drill.solo)) + to_double(drill.solo.bars.front().length) * play.midi.count_in_bars;
  double minutes = 0.0;
  for (const double bpm : tempos) minutes += quarters / bpm;
  constexpr double most_minutes = 60.0;
  if (minutes > most_minutes)
    throw SoundError(
        fmt::format("the sound would last {:.0f} minutes, and --wav writes at most {:.0f}; fewer --choruses, "
                    "or a step of the ladder alone",
                    minutes, most_minutes));
  return {*play.wav, synthesized(midi_of(play, drill, tempos))};
}

std::string volume_line(const std::string& file) {
  return fmt::format("Turn the volume down before you play {}, above all in headphones, and up until it is enough.\n",
                     file_name(file));
}

}  // namespace insideline::cli
