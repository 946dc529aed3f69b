#include "reports/json_values.hpp"

#include <cmath>

namespace insideline::reports {

Json number_or_null(const std::optional<double>& value) {
  constexpr double places = 1e6;
  if (!value || !std::isfinite(*value)) return nullptr;
  return std::round(*value * places) / places;
}

Json counts_json(const Share& share) { return {{"count", share.count}, {"of", share.of}}; }

}  // namespace insideline::reports
