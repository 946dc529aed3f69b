// The bars worth looking at first: at most three, each for another reason where
// the solo has that many. Which reason counts for more than which is common practice, no source.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/scales_in_thirds.hpp"

#include <span>
#include <vector>

namespace insideline {

/// `analysis` holds the labels, arpeggios and connections already. The most telling first;
/// among equals the earlier bar.
std::vector<TellingBar> find_telling_bars(const HeardLine& line, std::span<const ScaleInThirds> scales,
                                          const Solo& solo, const Analysis& analysis);

}  // namespace insideline
