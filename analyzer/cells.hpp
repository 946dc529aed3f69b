// Two- and three-note cells: such as 1-3, 3-7 or 3-5-b7 through the tones of one
// chord. Two notes are never an arpeggio; here they are counted on their own.
#pragma once

#include "analyzer/heard_line.hpp"

#include <vector>

namespace insideline {

/// Every two and every three notes in a row that are different chord tones of one chord,
/// inside a phrase and none a step from the last, counted by degrees, direction and quality of the chord. The most
/// frequent first, then shorter ones, then by degree.
std::vector<Cell> count_cells(const HeardLine& line, const Harmony& harmony);

}  // namespace insideline
