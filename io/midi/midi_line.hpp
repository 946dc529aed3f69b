// One melodic line out of a voice: chords reduced to their top note, legato overlaps trimmed.
#pragma once

#include "io/midi/midi_song.hpp"
#include "io/midi/tempo_clock.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace insideline::io {

struct MidiLine {
  std::vector<MidiNote> notes;  ///< in order of onset; none sounds into the next
  std::size_t chords = 0;       ///< struck together and reduced to their top note
  std::size_t under = 0;        ///< notes left out because the line above sounds on over them
  std::size_t trimmed = 0;      ///< notes cut where the next begins
};

MidiLine line_of(std::span<const MidiNote> notes, const TempoClock& clock);

/// The share of notes that a single line would not have: 0 for a melody, near 1 for an accompaniment.
double chordal_share(const MidiLine& line, std::size_t note_count);

}  // namespace insideline::io
