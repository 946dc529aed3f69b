// The solo in a few plain sentences with their figures, for the end of a printed sheet.
#pragma once

#include "analyzer/analysis.hpp"

#include <string>
#include <vector>

namespace insideline::reports {

/// One paragraph an item. What is undefined, for want of notes or chords, is not said.
std::vector<std::string> closing_summary(const Summary& summary);

}  // namespace insideline::reports
