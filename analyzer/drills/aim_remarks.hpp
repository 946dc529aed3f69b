// Where a line with an aim cannot have it, and why: chords without third or seventh, and bars without chord.
#pragma once

#include "analyzer/drills/drill.hpp"

#include <set>
#include <string>
#include <vector>

namespace insideline {

/// "bar 3", "bars 3, 5, 9".
std::string bars_listed(const std::set<int>& bars);

/// Of a guide-tone line: bars into which the voices move further than the least motion, because the range ends.
std::set<int> far_guide_tones(const Drill& drill, int voices);

/// One sentence for each reason, with its chords and bars; none for the kinds that aim at nothing.
std::vector<std::string> aim_remarks(const Drill& drill, const DrillSettings& settings);

}  // namespace insideline
