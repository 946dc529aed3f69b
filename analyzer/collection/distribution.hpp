// How one figure spreads over a collection, which solos stand apart in it, and where a solo stands.
// Sources: percentiles between two neighbours in proportion, R. J. Hyndman & Y. Fan, Sample Quantiles in Statistical
// Packages, The American Statistician 50 (1996) 361-365, definition 7; what stands apart, J. W. Tukey, Exploratory
// Data Analysis (1977), chapter 2: beyond one and a half times the middle half's width outside of that half.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace insideline {

struct Distribution {
  std::size_t count = 0;  ///< > 0
  double lowest = 0.0;
  double tenth = 0.0;  ///< a tenth of the solos lies below
  double lower_quarter = 0.0;
  double median = 0.0;
  double upper_quarter = 0.0;
  double nine_tenths = 0.0;
  double highest = 0.0;
};

/// `values` in any order, not empty.
Distribution distribution_of(std::vector<double> values);

/// What lies outside of these stands apart.
struct Fences {
  double low = 0.0;
  double high = 0.0;
};
Fences tukey_fences(const Distribution& distribution);

/// From fewer values the quarters mean too little to call anything far from them; common practice, no source.
constexpr std::size_t fewest_for_fences = 8;

/// Places in `values` of what stands apart, the furthest first, then by place. None where there are fewer than
/// `fewest_for_fences` values or half of the values are the same.
std::vector<std::size_t> standing_apart(std::span<const double> values);

/// The share (0..1) of `values` below `value`, those equal to it counted half; `values` not empty.
double standing(std::span<const double> values, double value);

}  // namespace insideline
