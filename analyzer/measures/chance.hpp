// Does the line follow these changes, or would others do? The same line is laid over
// the same changes turned round by whole bars, and, apart, moved to other keys. Turns
// that give the same changes again are left out: counted, they would hide a perfect
// match (the periodicity trap of circular shift tests: Lotwick & Silverman, J. R. Stat.
// Soc. B 44, 1982; Harris, A Shift Test for Independence in Generic Time Series, 2020).
#pragma once

#include "analyzer/measures/rotation.hpp"

#include <span>

namespace insideline {

/// Shares are strict: each note against the chord at its onset. Every different turn is
/// tried once, so the p-value can be no smaller than 1 / number of different turns.
Chance chance_by_turning(const HeardLine& line, const Solo& solo, const ChangesRing& ring);

/// The line moved up by 1 to 11 semitones; moves that leave every chord as it is are left out.
Chance chance_by_transposing(const HeardLine& line);

/// The verdict over shares with their counts: `real` is the alignment in use, `shifted`
/// one share a shift. A shift counts against the line where its share is at least as high.
Chance against_shifts(const Share& real, std::span<const Share> shifted);

}  // namespace insideline
