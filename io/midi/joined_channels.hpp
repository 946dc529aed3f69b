// One line on several channels of its track: a MIDI guitar gives each string a channel, an MPE keyboard each key that
// is held. Channel by channel it would be scraps.
#pragma once

#include "io/midi/midi_song.hpp"

namespace insideline::io {

/// Makes one voice of the channels of a track where hardly a note of theirs sounds under another and they have one
/// sound; others stay as they are.
void join_channels(MidiSong& song);

}  // namespace insideline::io
