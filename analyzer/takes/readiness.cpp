#include "analyzer/takes/readiness.hpp"

#include "analyzer/measures/proportion.hpp"

namespace insideline {
namespace {

Readiness after(int mistakes, int notes, int bound) {
  return readiness({.count = notes - mistakes, .of = notes}, bound);
}

}  // namespace

Readiness readiness(const Share& right, int bound) {
  const auto possible = wilson_interval(right);
  if (!possible) return Readiness::unsettled;
  const double asked = 1.0 - 1.0 / bound;
  if (possible->low > asked) return Readiness::ready;
  return possible->high <= asked ? Readiness::not_ready : Readiness::unsettled;
}

std::optional<int> most_mistakes_when_ready(int notes, int bound) {
  std::optional<int> most;
  for (int mistakes = 0; mistakes <= notes && after(mistakes, notes, bound) == Readiness::ready; ++mistakes)
    most = mistakes;
  return most;
}

std::optional<int> fewest_mistakes_when_not_ready(int notes, int bound) {
  std::optional<int> fewest;
  for (int mistakes = notes; mistakes >= 0 && after(mistakes, notes, bound) == Readiness::not_ready; --mistakes)
    fewest = mistakes;
  return fewest;
}

}  // namespace insideline
