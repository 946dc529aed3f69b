#include "analyzer/takes/readiness.hpp"

#include "analyzer/measures/proportion.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

using insideline::fewest_mistakes_when_not_ready;
using insideline::most_mistakes_when_ready;
using insideline::Readiness;
using insideline::readiness;
using insideline::Share;

TEST_CASE("the same share of right notes is ready in a long sheet and not settled in a short one") {
  const auto [right, verdict] = GENERATE(table<Share, Readiness>({
      {{15, 16}, Readiness::unsettled},
      {{150, 160}, Readiness::ready},
      {{16, 16}, Readiness::unsettled},  // nothing wrong, and still too few to tell
      {{32, 32}, Readiness::ready},
      {{31, 32}, Readiness::unsettled},
      {{91, 96}, Readiness::ready},
      {{90, 96}, Readiness::unsettled},
      {{78, 96}, Readiness::unsettled},
      {{77, 96}, Readiness::not_ready},
      {{0, 4}, Readiness::not_ready},
      {{0, 0}, Readiness::unsettled},
  }));
  CAPTURE(right.count, right.of);
  CHECK(readiness(right, 8) == verdict);
}

TEST_CASE("how many mistakes a sheet bears is what the verdict says of them") {
  const int notes = GENERATE(1, 5, 16, 27, 32, 44, 96, 167, 500);
  const int bound = GENERATE(2, 6, 8, 20);
  CAPTURE(notes, bound);
  const auto most = most_mistakes_when_ready(notes, bound);
  const auto fewest = fewest_mistakes_when_not_ready(notes, bound);
  for (int mistakes = 0; mistakes <= notes; ++mistakes) {
    const Readiness verdict = readiness({notes - mistakes, notes}, bound);
    CHECK((verdict == Readiness::ready) == (most && mistakes <= *most));
    CHECK((verdict == Readiness::not_ready) == (fewest && mistakes >= *fewest));
  }
}

// The interval that R's prop.test(x, n, correct = FALSE) gives, here by its formula worked out apart from ours: the two
// shares p whose distance from x/n is 1.96 standard errors at p itself, found by halving.
TEST_CASE("Wilson's interval ends where the count is just 1.96 standard errors away") {
  const auto [right, of] = GENERATE(table<int, int>(
      {{86, 96}, {91, 96}, {96, 96}, {0, 4}, {1, 1}, {15, 16}, {150, 160}, {27, 27}, {499, 500}, {13, 181}}));
  CAPTURE(right, of);
  const double notes = of;
  const double share = right / notes;
  const auto errors_away = [&](double p) { return (share - p) / std::sqrt(std::max(1e-300, p * (1.0 - p) / notes)); };
  double low = 0.0;
  double high_of_low = share;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high_of_low) / 2.0;
    (errors_away(middle) > insideline::normal_quantile ? low : high_of_low) = middle;
  }
  double high = 1.0;
  double low_of_high = share;
  for (int i = 0; i < 200; ++i) {
    const double middle = (high + low_of_high) / 2.0;
    (errors_away(middle) < -insideline::normal_quantile ? high : low_of_high) = middle;
  }
  const auto interval = insideline::wilson_interval({right, of});
  REQUIRE(interval);
  CHECK(interval->low == Approx(low).margin(1e-9));
  CHECK(interval->high == Approx(high).margin(1e-9));
}

// Wilson's lower end passes 7/8 for 5 mistakes in 96 (0.884) and not for 6 (0.870); the upper end stays below it from
// 19 mistakes on (0.869; for 18 it is 0.878).
TEST_CASE("96 notes bear five mistakes, and show from nineteen on that the sheet is not ready") {
  CHECK(most_mistakes_when_ready(96, 8) == 5);
  CHECK(fewest_mistakes_when_not_ready(96, 8) == 19);
  CHECK_FALSE(most_mistakes_when_ready(26, 8));
  CHECK(most_mistakes_when_ready(27, 8) == 0);
}
