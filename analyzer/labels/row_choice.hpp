// Which rows of the score table apply to a reading by itself; those between two notes are chosen in joint.hpp, and
// nowhere else is any.
#pragma once

#include "analyzer/labels/note_context.hpp"
#include "analyzer/labels/reading.hpp"
#include "analyzer/labels/score_table.hpp"

#include <cstddef>
#include <vector>

namespace insideline {

/// The rows that speak for or against `reading` of note `index`, in table order.
std::vector<Row> rows_for(const Reading& reading, const Chain& chain, std::size_t index);
/// The sum of those rows, in thousandths.
int reading_score(const Reading& reading, const Chain& chain, std::size_t index);

}  // namespace insideline
