// The names of a chart's chords where several sound alike: with flats, with sharps, and never with a double accidental,
// which a player has to work out (common practice, no source).
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/chord.hpp"

#include <cstdint>

namespace insideline {

enum class Accidentals : std::uint8_t { flats, sharps };

/// C#m7 in flats is Dbm7, Cb7 in sharps is B7; a bass moves with its root, and alone it stays: D/F#.
Chord spelled_with(const Chord& chord, Accidentals accidentals);

/// The key in flats or in sharps, where it has such a name with at most seven signs; else as it is.
Key spelled_with(const Key& key, Accidentals accidentals);

/// Ebb7 is D7; other chords stay as they are.
Chord plainly_spelled(const Chord& chord);

/// The chart moved by `by`, its chords plainly spelled.
Changes moved_plainly(const Changes& changes, const Interval& by);

}  // namespace insideline
