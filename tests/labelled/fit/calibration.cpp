#include "tests/labelled/fit/calibration.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace insideline::tests {
namespace {

template <typename Value>
double mean(const std::vector<Claim>& claims, Value value) {
  const double sum = std::accumulate(claims.begin(), claims.end(), 0.0,
                                     [&](double before, const Claim& claim) { return before + value(claim); });
  return claims.empty() ? 0.0 : sum / static_cast<double>(claims.size());
}

}  // namespace

double calibration_error(const std::vector<Claim>& claims) {
  constexpr std::size_t bins = 10;
  std::array<double, bins> gaps{};
  for (const Claim& claim : claims) {
    const auto bin = static_cast<std::size_t>(claim.probability * static_cast<double>(bins));
    gaps.at(std::min(bin, bins - 1)) += claim.probability - claim.truth;
  }
  double sum = 0.0;
  for (const double gap : gaps) sum += std::abs(gap);
  return claims.empty() ? 0.0 : sum / static_cast<double>(claims.size());
}

double brier_score(const std::vector<Claim>& claims) {
  return mean(claims, [](const Claim& claim) { return std::pow(claim.probability - claim.truth, 2); });
}

double brier_score_of_the_mean(std::vector<Claim> claims) {
  const double truth = mean_truth(claims);
  for (Claim& claim : claims) claim.probability = truth;
  return brier_score(claims);
}

double mean_claim(const std::vector<Claim>& claims) {
  return mean(claims, [](const Claim& claim) { return claim.probability; });
}

double mean_truth(const std::vector<Claim>& claims) {
  return mean(claims, [](const Claim& claim) { return claim.truth; });
}

}  // namespace insideline::tests
