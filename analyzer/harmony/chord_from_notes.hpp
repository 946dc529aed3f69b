// Names the chord that a handful of notes spell by themselves.
#pragma once

#include "analyzer/model/chord.hpp"

#include <optional>
#include <span>

namespace insideline {

/// The simplest chord whose tones are exactly `notes`, repeats aside: E G B D is Em7, in any
/// order. Stacks of thirds win over sixth and suspended chords (C E G A is Am7); among equal
/// roots (augmented and diminished chords) the first note is the root, so give the lowest or
/// first note first. Spelled as given where that makes a chord, else by sound. No bass is set:
/// the inversion is the caller's to tell. None where no chord fits, and for fewer than two notes.
std::optional<Chord> chord_spelled_by(std::span<const NoteName> notes);

}  // namespace insideline
