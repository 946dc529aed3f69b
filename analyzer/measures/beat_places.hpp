// What the line is made of, place by place in the bar: on each counted beat, and after it.
#pragma once

#include "analyzer/analysis.hpp"

#include <string>
#include <vector>

namespace insideline {

struct PlaceDensity {
  int beat = 1;             ///< as counted in the bar
  bool after_beat = false;  ///< anywhere between this beat and the next
  Density density;
};

/// Places with notes that count, in order. Grace notes and notes under N.C. are left out.
/// `analysis` must be that of `solo`.
std::vector<PlaceDensity> measure_beat_places(const Solo& solo, const Analysis& analysis);

}  // namespace insideline
