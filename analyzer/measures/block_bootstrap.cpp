#include "analyzer/measures/block_bootstrap.hpp"

#include "analyzer/measures/proportion.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numeric>

namespace insideline {
namespace {

double absolute(double value) { return std::abs(value); }

/// Autocovariances at lag 0 to `furthest`; 0 beyond the end of the series.
std::vector<double> autocovariances(std::span<const double> series, std::size_t furthest) {
  const std::size_t count = series.size();
  const double mean = std::accumulate(series.begin(), series.end(), 0.0) / static_cast<double>(count);
  std::vector<double> covariances(furthest + 1, 0.0);
  for (std::size_t lag = 0; lag <= furthest && lag < count; ++lag) {
    for (std::size_t i = 0; i + lag < count; ++i) covariances[lag] += (series[i] - mean) * (series[i + lag] - mean);
    covariances[lag] /= static_cast<double>(count);
  }
  return covariances;
}

/// The lag after which the series has forgotten itself: the first of `in_a_row` lags that are all within chance; else
/// the last lag that is not.
std::size_t memory(std::span<const double> covariances, double within_chance, std::size_t in_a_row) {
  std::size_t quiet = 0;
  std::size_t last_loud = 1;
  for (std::size_t lag = 1; lag < covariances.size(); ++lag) {
    if (absolute(covariances[lag] / covariances[0]) < within_chance) {
      if (++quiet == in_a_row) return lag + 1 - in_a_row;
    } else {
      quiet = 0;
      last_loud = lag;
    }
  }
  return last_loud;
}

/// 1 near the middle, falling to 0 at 1 (flat-top window).
double window(double distance) { return std::min(1.0, 2 * (1 - distance)); }

/// Student's t for two-sided 95 %. Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.7.5.
double t_quantile(double freedom) {
  const double z = normal_quantile;
  const double z2 = z * z;
  const double g1 = z * (z2 + 1) / 4;
  const double g2 = z * ((5 * z2 + 16) * z2 + 3) / 96;
  const double g3 = z * (((3 * z2 + 19) * z2 + 17) * z2 - 15) / 384;
  return z + (g1 + (g2 + g3 / freedom) / freedom) / freedom;
}

}  // namespace

std::optional<double> quotient(std::span<const BarAmount> bars) {
  BarAmount sum;
  for (const BarAmount& bar : bars) sum = {.part = sum.part + bar.part, .whole = sum.whole + bar.whole};
  if (sum.whole <= 0.0) return std::nullopt;
  return sum.part / sum.whole;
}

double automatic_block(std::span<const double> series) {
  constexpr std::size_t fewest = 4;
  if (series.size() < fewest) return 1.0;
  const auto count = static_cast<double>(series.size());
  const auto in_a_row = std::max<std::size_t>(5, static_cast<std::size_t>(std::ceil(std::log10(count))));
  const std::size_t furthest = static_cast<std::size_t>(std::ceil(std::sqrt(count))) + in_a_row;
  const std::vector<double> covariances = autocovariances(series, furthest);
  if (covariances[0] <= std::numeric_limits<double>::epsilon()) return 1.0;
  const double within_chance = 2 * std::sqrt(std::log10(count) / count);
  const std::size_t reach = std::min(2 * memory(covariances, within_chance, in_a_row), furthest);
  double bias = 0.0;                 // the sum of |lag| times covariance, over both directions
  double variance = covariances[0];  // of the mean, times the length
  for (std::size_t lag = 1; lag <= reach; ++lag) {
    const auto distance = static_cast<double>(lag);
    const double weighted = 2 * window(distance / static_cast<double>(reach)) * covariances[lag];
    bias += distance * weighted;
    variance += weighted;
  }
  const double longest = std::ceil(std::min(3 * std::sqrt(count), count / 3));
  const double spread = 4.0 / 3 * variance * variance;  // 4/3 is for circular blocks
  if (spread <= 0.0) return longest;
  return std::clamp(std::cbrt(2 * bias * bias / spread * count), 1.0, longest);
}

std::size_t block_length(std::span<const BarAmount> bars) {
  const auto whole_solo = quotient(bars);
  if (!whole_solo) return 1;
  std::vector<double> pulls;  // how far each bar pulls the quotient up or down
  for (const BarAmount& bar : bars) pulls.push_back(bar.part - *whole_solo * bar.whole);
  return static_cast<std::size_t>(std::lround(automatic_block(pulls)));
}

Draws::Draws(std::uint64_t seed, std::uint64_t stream) {
  // The mapping of a seed sequence is fixed by the standard, as the engine is.
  constexpr unsigned half = 32;
  std::seed_seq words{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> half),
                      static_cast<std::uint32_t>(stream), static_cast<std::uint32_t>(stream >> half)};
  engine_.seed(words);
}

std::size_t Draws::below(std::size_t count) {
  assert(count > 0 && "there must be something to draw");
  const std::uint64_t even = std::numeric_limits<std::uint64_t>::max() / count * count;
  std::uint64_t draw = engine_();
  while (draw >= even) draw = engine_();
  return static_cast<std::size_t>(draw % count);
}

BarRing::BarRing(std::span<const BarAmount> bars) : size_(bars.size()), sums_(1) {
  for (std::size_t i = 0; i < 2 * size_; ++i) {
    const BarAmount& bar = bars[i % size_];
    sums_.push_back({.part = sums_.back().part + bar.part, .whole = sums_.back().whole + bar.whole});
  }
}

std::optional<double> BarRing::drawn(std::span<const std::size_t> starts, std::size_t block) const {
  assert(starts.size() * block >= size_ && block >= 1 && block <= size_ && "the runs must fill the solo");
  BarAmount sum;
  std::size_t left = size_;
  for (const std::size_t start : starts) {
    const std::size_t end = start + std::min(block, left);
    sum.part += sums_[end].part - sums_[start].part;
    sum.whole += sums_[end].whole - sums_[start].whole;
    left -= end - start;
  }
  constexpr double nothing = 1e-9;  // what rounding may leave of a sum
  if (sum.whole <= nothing) return std::nullopt;
  return sum.part / sum.whole;
}

std::optional<double> BarRing::drawn(std::size_t block, Draws& draws) const {
  if (size_ == 0) return std::nullopt;
  std::vector<std::size_t> starts((size_ + block - 1) / block);
  for (std::size_t& start : starts) start = draws.below(size_);
  return drawn(starts, block);
}

double quantile(std::span<const double> sorted, double p) {
  assert(!sorted.empty() && "there must be values");
  const double place = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(std::floor(place));
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return std::lerp(sorted[below], sorted[above], place - static_cast<double>(below));
}

Interval95 widened_interval(std::vector<double> values, double blocks) {
  assert(blocks >= 2 && "one block has no spread");
  std::ranges::sort(values);
  const double further_out = t_quantile(blocks - 1) * std::sqrt(blocks / (blocks - 1));
  const double tail = std::erfc(further_out / std::sqrt(2.0)) / 2;
  return {.low = quantile(values, tail), .high = quantile(values, 1 - tail)};
}

}  // namespace insideline
