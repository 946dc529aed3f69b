// The tones of a cell over a chord: what the chord itself has, and where it has no such tone, what its usual scale has.
#pragma once

#include "analyzer/drills/drill_settings.hpp"
#include "analyzer/model/chord.hpp"

#include <optional>
#include <string_view>

namespace insideline {

/// The tone of the chord's usual scale with a number from 1 to 13; none for a chord that has no usual scale. What the
/// symbol names comes first: 2 is b2 over C7(b9).
std::optional<Degree> scale_tone(const Chord& chord, int number);

/// "dorian"; empty where the chord has no usual scale, or names a tone that the scale has otherwise.
std::string_view usual_scale_name(const Chord& chord);

/// The tone that a cell plays over the chord: as written where an accidental (or maj7) was typed; else the chord's own,
/// so that 7 is the chord's own seventh, and 9, 11 and 13 the tensions it takes; else that of its usual scale. Over a
/// half-diminished chord 9 is of the usual scale like 2: b9.
std::optional<Degree> cell_tone(const Chord& chord, const CellTone& tone);

}  // namespace insideline
