// Which track and channel of a MIDI file holds the solo.
#pragma once

#include "io/midi/midi_line.hpp"
#include "io/midi/midi_song.hpp"
#include "io/read_result.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace insideline::io {

struct ChosenVoice {
  std::size_t voice = 0;  ///< index into MidiSong::voices
  MidiLine line;
  std::string why;  ///< empty where there was nothing to choose
  PartTaken taken = PartTaken::first_line;
};

/// "track 2, Tenor", "channel 3 of track 1".
std::string name_of(const MidiSong& song, const MidiVoice& voice);

/// Whether the words after --track mean a channel and not a whole track.
bool asks_for_channel(const MidiSong& song, const std::string& wanted);

/// The one asked for by track name, track number or "channel N"; else the first with a single melodic line that is no
/// bass; else the one that comes nearest. Throws ReadError where there is none, with a list of what there is.
ChosenVoice solo_voice(const MidiSong& song, const TempoClock& clock, const std::optional<std::string>& wanted,
                       std::string_view file_name);

/// The voices of the track asked for; what is in all its channels counts.
std::vector<const MidiVoice*> voices_named(const MidiSong& song, const std::string& wanted, std::string_view file_name);

}  // namespace insideline::io
