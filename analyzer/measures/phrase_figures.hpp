// Each phrase in figures.
#pragma once

#include "analyzer/heard_line.hpp"

#include <span>
#include <vector>

namespace insideline {

/// `densities.by_phrase` and `arpeggios` must be those of the same line.
std::vector<PhraseFigures> measure_phrases(const HeardLine& line, const Solo& solo, std::span<const NoteLabel> labels,
                                           std::span<const Phrase> phrases, std::span<const Arpeggio> arpeggios,
                                           const Densities& densities);

/// The way a line runs; a difference of one semitone still counts as level (chosen, no source).
Contour contour_of(std::span<const int> midi);

}  // namespace insideline
