// The changes in a MIDI file: texts that read as chord symbols, or block chords on a track of their own.
#pragma once

#include "io/midi/midi_song.hpp"
#include "io/midi/tempo_clock.hpp"
#include "io/midi/timeline.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace insideline::io {

struct ChordPlace {
  std::optional<Chord> chord;  ///< none: N.C.
  Beats onset;                 ///< from the start of the file
};

struct FoundChanges {
  std::vector<ChordPlace> places;  ///< in order of time, no two at once; empty where the file has no chords
  std::vector<std::string> warnings;
};

/// The kind of text (lyrics, markers, cues or plain text) of one track most of which reads as chord symbols, if at
/// least one of them is more than a letter: markers A, B, A are sections.
FoundChanges changes_in_texts(const MidiSong& song, std::span<const BeatCell> cells, const TempoClock& clock);

/// The simplest symbol for each chord struck. `voices` are those of the chord track.
FoundChanges changes_in_chords(const std::vector<const MidiVoice*>& voices, const MidiSong& song,
                               std::span<const BeatCell> cells, const TempoClock& clock);

}  // namespace insideline::io
