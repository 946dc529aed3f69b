// Everything in a line that is played again, or that a textbook has a name for, beside arpeggios.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/scales_in_thirds.hpp"

#include <span>

namespace insideline {

/// All but the blue notes, which need the rest of the analysis.
Patterns find_patterns(const HeardLine& line, std::span<const ScaleInThirds> scales, const Solo& solo,
                       const Harmony& harmony);

}  // namespace insideline
