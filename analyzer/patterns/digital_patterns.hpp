// Digital patterns: four even notes named by the steps of the chord's scale. Common practice, no source.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/patterns/moves.hpp"

#include <vector>

namespace insideline {

/// 1 2 3 5, 5 3 2 1, 1 3 4 5, 5 4 3 1 and 1 2 3 1, the third as the chord has it: four even notes from a beat, within
/// an octave, heard against one chord, with no rest between. In order; no two share a note.
std::vector<DigitalPattern> find_digital_patterns(const HeardLine& line, const LineMoves& moves,
                                                  const Harmony& harmony);

}  // namespace insideline
