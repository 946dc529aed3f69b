// How far would a figure wander, had the same player played other bars of the same kind? Bars are drawn again from the
// solo in runs, because neighbouring bars are not independent; the solo is taken as a ring, so that its ends come up
// as often as its middle.
// Sources: circular blocks, D. N. Politis & J. P. Romano, in Exploring the Limits of Bootstrap (1992); their length,
// D. N. Politis & H. White, Econometric Reviews 23 (2004) 53-70, as corrected by A. Patton, D. N. Politis & H. White,
// Econometric Reviews 28 (2009) 372-375; the widened interval, T. C. Hesterberg, The American Statistician 69 (2015)
// 371-386, section 4.
#pragma once

#include "analyzer/measures/proportion.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <random>
#include <span>
#include <vector>

namespace insideline {

/// What one bar gives to a figure: 3 of its 8 notes, or 5 notes of 1 bar.
struct BarAmount {
  double part = 0.0;
  double whole = 0.0;  ///< >= 0
  friend auto operator<=>(const BarAmount&, const BarAmount&) = default;
};

/// The figure of these bars together: all parts over all wholes; none where the wholes are 0.
std::optional<double> quotient(std::span<const BarAmount> bars);

/// The best length of a block for the mean of `series`, in steps, not rounded: from 1 to about a third of the series.
/// 1 for a series that never changes or has fewer than four values.
double automatic_block(std::span<const double> series);

/// The same for the quotient of `bars`, in whole bars: chosen for what each bar adds to or takes from the quotient.
std::size_t block_length(std::span<const BarAmount> bars);

/// Even draws that come out the same with every standard library. Different streams of one seed have nothing in common.
class Draws {
 public:
  Draws(std::uint64_t seed, std::uint64_t stream);
  /// 0 to `count` - 1, each as likely; `count` > 0.
  std::size_t below(std::size_t count);

 private:
  std::mt19937_64 engine_;
};

/// A ring of bars that runs can be taken from.
class BarRing {
 public:
  explicit BarRing(std::span<const BarAmount> bars);

  /// The quotient of as many bars as the ring has: runs of `block` bars from `starts` on, the last one cut. There must
  /// be enough of them, `block` is 1 to the size of the ring.
  std::optional<double> drawn(std::span<const std::size_t> starts, std::size_t block) const;
  /// The same with starts from `draws`; none for an empty ring.
  std::optional<double> drawn(std::size_t block, Draws& draws) const;

 private:
  std::size_t size_ = 0;
  std::vector<BarAmount> sums_;  ///< of the first 0, 1, 2 ... bars, twice round
};

/// The value that a share `p` (0..1) of `sorted` lies below, between two neighbours in proportion; `sorted` not empty.
double quantile(std::span<const double> sorted, double p);

/// The 95 % interval of `values` by percentiles. From few blocks the plain percentiles are too narrow; they are taken
/// further out as the t distribution is wider than the normal one. `values` not empty, `blocks` at least 2.
Interval95 widened_interval(std::vector<double> values, double blocks);

}  // namespace insideline
