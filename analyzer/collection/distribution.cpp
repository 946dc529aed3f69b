#include "analyzer/collection/distribution.hpp"

#include "analyzer/measures/block_bootstrap.hpp"

#include <algorithm>
#include <cassert>

namespace insideline {
namespace {

constexpr double tenth = 0.1;
constexpr double quarter = 0.25;
constexpr double half = 0.5;

}  // namespace

Distribution distribution_of(std::vector<double> values) {
  assert(!values.empty() && "a distribution is of at least one value");
  std::ranges::sort(values);
  return {.count = values.size(),
          .lowest = values.front(),
          .tenth = quantile(values, tenth),
          .lower_quarter = quantile(values, quarter),
          .median = quantile(values, half),
          .upper_quarter = quantile(values, 1.0 - quarter),
          .nine_tenths = quantile(values, 1.0 - tenth),
          .highest = values.back()};
}

Fences tukey_fences(const Distribution& distribution) {
  constexpr double widths = 1.5;
  const double width = distribution.upper_quarter - distribution.lower_quarter;
  return {.low = distribution.lower_quarter - widths * width, .high = distribution.upper_quarter + widths * width};
}

std::vector<std::size_t> standing_apart(std::span<const double> values) {
  if (values.size() < fewest_for_fences) return {};
  const Distribution distribution = distribution_of({values.begin(), values.end()});
  if (!(distribution.upper_quarter > distribution.lower_quarter)) return {};
  const Fences fences = tukey_fences(distribution);
  const auto beyond = [&](std::size_t place) {
    return std::max(fences.low - values[place], values[place] - fences.high);
  };
  std::vector<std::size_t> apart;
  for (std::size_t place = 0; place < values.size(); ++place)
    if (beyond(place) > 0.0) apart.push_back(place);
  std::ranges::stable_sort(apart, [&](std::size_t a, std::size_t b) { return beyond(a) > beyond(b); });
  return apart;
}

double standing(std::span<const double> values, double value) {
  assert(!values.empty() && "a standing is among at least one value");
  const auto below = std::ranges::count_if(values, [&](double other) { return other < value; });
  const auto above = std::ranges::count_if(values, [&](double other) { return other > value; });
  const auto count = static_cast<double>(values.size());
  return (static_cast<double>(below) + half * (count - static_cast<double>(below + above))) / count;
}

}  // namespace insideline
