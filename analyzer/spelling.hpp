// Names for pitches that come without one, as MIDI's do: from the chord that sounds, then from where the line
// goes, then from the key. F sharp over C7 is its #11; the B under a C that follows is no C flat.
// Chromatic notes are spelled by where they lead (common practice, e.g. Open Music Theory, "Embellishing tones").
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

namespace insideline {

/// The usual name of a pitch class (0..11) in a key: its scale notes, else the nearest on the line of fifths.
NoteName usual_name(int pitch_class, const Key& key);

/// The solo with every note whose spelling the source did not give spelled by the chords under it.
/// Sounding pitches stay; Note::written follows, and Note::spelled is then true.
Solo spelled_by_harmony(Solo solo, const Harmony& harmony);

}  // namespace insideline
