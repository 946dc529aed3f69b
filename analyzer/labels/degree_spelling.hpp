// The name of a note over its chord: #11 or b5, #9 or b3.
#pragma once

#include "analyzer/model/chord.hpp"
#include "analyzer/model/solo.hpp"

namespace insideline {

/// The degree of `note` over `chord`. A tone or tension takes its name from the chord. Any other
/// note keeps the file's spelling where it makes a degree that players use; else it is named by
/// where it goes: `rising` raises the note below (#11), falling lowers the one above (b5).
Degree degree_over(const Chord& chord, const Note& note, bool rising);

/// The same for a note that colours `chord`: over a dominant the minor third is its #9
/// and the flat fifth its #11, however they are written.
Degree tension_over(const Chord& chord, const Note& note);

}  // namespace insideline
