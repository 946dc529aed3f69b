// What `drill` gives to play along with: the clicks, the chords, the tempos of the ladder, and the sound file.
#pragma once

#include "analyzer/drills/drill.hpp"
#include "io/midi/practice_midi.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace insideline::cli {

class Destinations;

enum class Ladder : std::uint8_t { together, apart };

struct PlayAlong {
  io::PracticeMidiOptions midi;
  std::optional<Ladder> ladder;    ///< all tempos in one file, or a file for each; none: the top alone
  std::optional<std::string> wav;  ///< rendered as sound
};

/// A file to be written whole or not at all.
struct NamedBytes {
  std::string file;
  std::string bytes;
};

/// `play` must live as long as `command`.
void add_play_along_options(CLI::App& command, PlayAlong& play);

/// The MIDI files to `sheet`, which names them: one, or with Ladder::apart sheet-60.mid, sheet-72.mid ...
/// Throws io::ReadError where no eighths swing in the meter of the changes.
std::vector<NamedBytes> play_along_files(const PlayAlong& play, const std::string& sheet, const Drill& drill,
                                         double goal_bpm);

/// The sound file of --wav. Throws SoundError.
NamedBytes sound_file(const PlayAlong& play, const Drill& drill, double goal_bpm);

/// One line, with its line break.
std::string volume_line(const std::string& file);

}  // namespace insideline::cli
