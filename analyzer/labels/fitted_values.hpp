// The values of the score table as fitted, one a row in the order of the rows, in thousandths of a natural log unit.
// Written by tests/labelled/fit (see DEVELOPERS.md); edit the values by hand in score_table.cpp and fit again.
#pragma once

#include "analyzer/labels/score_table.hpp"

#include <array>

namespace insideline {

extern const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values;

}  // namespace insideline
