// The changes as a ring of bars that can be turned under the line. One pass of a form
// is the ring where the solo plays it whole; otherwise the bars of the solo are.
#pragma once

#include "analyzer/heard_line.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace insideline {

/// A part of a bar under one chord, or under N.C.
struct BarSpan {
  Beats offset;  ///< from the bar line
  std::optional<PitchClassSet> tones;
  friend bool operator==(const BarSpan&, const BarSpan&) = default;
};

struct ChangesRing {
  std::vector<std::vector<BarSpan>> bars;  ///< each begins at offset 0; neighbours in a bar differ
  std::size_t first_bar = 0;               ///< index into Solo::bars of the first full bar, where bars[0] stands
  std::size_t period = 1;                  ///< bars; turned by so many, the changes are the same again
};

/// `line.stretches` must be those of `harmony`.
ChangesRing ring_of(const Solo& solo, const Harmony& harmony, const HeardLine& line);

/// The bar of the ring under bar `bar` of the solo, turned by `turn`; none in a pickup.
std::optional<std::size_t> bar_under(const ChangesRing& ring, std::size_t bar, std::size_t turn);

}  // namespace insideline
