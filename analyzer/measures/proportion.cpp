#include "analyzer/measures/proportion.hpp"

#include <algorithm>
#include <cmath>

namespace insideline {
namespace {}  // namespace

std::optional<double> ratio(const Share& share) {
  if (share.of == 0) return std::nullopt;
  return static_cast<double>(share.count) / share.of;
}

std::optional<Interval95> wilson_interval(const Share& share) {
  const auto p = ratio(share);
  if (!p) return std::nullopt;
  const double n = share.of;
  const double z2 = normal_quantile * normal_quantile;
  const double centre = (*p + z2 / (2 * n)) / (1 + z2 / n);
  const double half = normal_quantile * std::sqrt(*p * (1 - *p) / n + z2 / (4 * n * n)) / (1 + z2 / n);
  return Interval95{.low = std::max(0.0, centre - half), .high = std::min(1.0, centre + half)};
}

std::optional<Interval95> newcombe_interval(const Share& a, const Share& b) {
  const auto sure_a = wilson_interval(a);
  const auto sure_b = wilson_interval(b);
  if (!sure_a || !sure_b) return std::nullopt;
  const double p = *ratio(a);
  const double q = *ratio(b);
  return Interval95{.low = p - q - std::hypot(p - sure_a->low, sure_b->high - q),
                    .high = p - q + std::hypot(sure_a->high - p, q - sure_b->low)};
}

double effect_size(double a, double b) { return 2 * std::asin(std::sqrt(a)) - 2 * std::asin(std::sqrt(b)); }

}  // namespace insideline
