// Bars of the solo as on a page: chord, beat, note, degree and motion of each note
// under each other, arpeggios bracketed, connections named.
// Lines break between bars; a bar too long for a line breaks inside.
#pragma once

#include "reports/report.hpp"
#include "reports/text/ink.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline::reports {

/// The bars with these indices into `report.solo.bars`, in order; lines of at most
/// `line_width` columns, an empty line after each group of them.
std::string bars_view(const Report& report, const std::vector<std::size_t>& bars, Colour colour,
                      std::size_t line_width = 80);

}  // namespace insideline::reports
