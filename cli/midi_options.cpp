#include "cli/midi_options.hpp"

#include "cli/solo_options.hpp"
#include "io/midi/midi.hpp"

#include <CLI/CLI.hpp>

#include <map>
#include <string>
#include <vector>

namespace insideline::cli {
namespace {

const std::map<std::string, io::Grid>& grids_by_name() {
  static const std::map<std::string, io::Grid> grids{{"eighths", io::Grid::eighths},
                                                     {"triplets", io::Grid::triplets},
                                                     {"sixteenths", io::Grid::sixteenths},
                                                     {"sextuplets", io::Grid::sextuplets},
                                                     {"thirty-seconds", io::Grid::thirty_seconds}};
  return grids;
}

std::string not_a_grid(const std::string& word) {
  if (grids_by_name().contains(word)) return {};
  return "'" + word + "' is no grid; write eighths, triplets, sixteenths, sextuplets or thirty-seconds, or several";
}

std::string not_a_time(const std::string& text) {
  if (parse_beats(text)) return {};
  return "'" + text + "' is not a time in quarter notes, such as 4, 7/2 or 3.5";
}

}  // namespace

void check_midi_options(const SoloOptions& options, std::string_view bytes) {
  if (io::is_midi(bytes)) return;
  const char* const option = options.reading.chord_track                      ? "--chord-track"
                             : !options.reading.grids.empty()                 ? "--grid"
                             : options.beats_file                             ? "--beats"
                             : options.reading.bar_one                        ? "--bar-one"
                             : options.reading.damage == io::Damage::salvaged ? "--salvage"
                                                                              : nullptr;
  if (option != nullptr) throw CLI::ValidationError(option, "is for a MIDI file, and " + options.solo + " is none");
}

void add_midi_options(CLI::App& command, SoloOptions& options) {
  const std::string group = "From a MIDI file";
  CLI::Option* const chord_track =
      command
          .add_option("--chord-track", options.reading.chord_track,
                      "The track whose block chords are the changes; their symbols are worked out from the notes")
          ->option_text("NAME|NUMBER")
          ->group(group);
  if (CLI::Option* const changes = command.get_option_no_throw("--changes")) chord_track->excludes(changes);
  command
      .add_option_function<std::vector<std::string>>(
          "--grid",
          [&options](const std::vector<std::string>& words) {
            for (const std::string& word : words) options.reading.grids.push_back(grids_by_name().at(word));
          },
          "The note values it is written in: eighths, triplets, sixteenths, sextuplets, thirty-seconds, or several "
          "with "
          "commas between; default: found out beat by beat")
      ->delimiter(',')
      ->check(CLI::Validator(not_a_grid, ""))
      ->option_text("VALUES")
      ->group(group);
  command
      .add_option(
          "--beats", options.beats_file,
          "Where the beats are, for a take in free time: one time in seconds a line, and the number of the beat "
          "in its bar where you know it")
      ->option_text("FILE")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--bar-one", [&options](const std::string& text) { options.reading.bar_one = *parse_beats(text); },
          "Where bar 1 begins, in quarter notes from the start of the file; default: the best fit")
      ->check(CLI::Validator(not_a_time, ""))
      ->option_text("QUARTERS")
      ->group(group);
  command
      .add_flag_callback(
          "--salvage", [&options] { options.reading.damage = io::Damage::salvaged; },
          "Read what is left of a damaged file, with a warning for each thing that is lost")
      ->group(group);
}

}  // namespace insideline::cli
