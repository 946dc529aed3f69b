// Sequences: the same shape, moved. Common practice, no source.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/patterns/moves.hpp"
#include "analyzer/scales_in_thirds.hpp"

#include <span>
#include <vector>

namespace insideline {

/// Shapes of two to sixteen notes with one rhythm that follow each other without a rest, each moved the same way: three
/// of them, or two of six notes or more. A scale is none; a scale in thirds is one whatever its rhythm. In order; no
/// two share a note.
std::vector<Sequence> find_sequences(const HeardLine& line, const LineMoves& moves,
                                     std::span<const ScaleInThirds> scales);

}  // namespace insideline
