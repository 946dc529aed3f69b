// A practice line as a MIDI file to play with: a bar of clicks, then the line, with the chords sounding under it.
// The line is on the first track of notes, so that it is what a reader takes for the solo.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <string>
#include <vector>

namespace insideline::io {

/// The line begins in bar 2, after one bar of clicks. `solo.bars` is not empty.
std::string write_practice_midi(const Solo& solo, const Harmony& harmony);

/// The chord as it is sounded: its bass or root between C2 and B2, its other tones once each between E3 and Eb4, the
/// lowest first. MIDI numbers.
std::vector<int> sounded_chord(const Chord& chord);

}  // namespace insideline::io
