// Wilson intervals recomputed with R 4.2.2: prop.test(x, n, correct = FALSE)$conf.int.
// Newcombe: the worked example of his paper, Statistics in Medicine 17 (1998) 873-890.
#include "analyzer/measures/proportion.hpp"

#include <catch2/catch.hpp>

using insideline::Share;

TEST_CASE("a share knows how sure it is") {
  const auto [share, low, high] = GENERATE(table<Share, double, double>({
      {{.count = 0, .of = 10}, 0.0, 0.2775},
      {{.count = 62, .of = 100}, 0.5221, 0.7090},
      {{.count = 7, .of = 15}, 0.2481, 0.6988},
      {{.count = 10, .of = 10}, 0.7225, 1.0},
  }));
  const auto interval = insideline::wilson_interval(share);
  REQUIRE(interval);
  CHECK(interval->low == Approx(low).margin(0.00005));
  CHECK(interval->high == Approx(high).margin(0.00005));
}

TEST_CASE("the difference of two shares has its interval") {
  const auto interval = insideline::newcombe_interval({.count = 56, .of = 70}, {.count = 48, .of = 80});
  REQUIRE(interval);
  CHECK(interval->low == Approx(0.0524).margin(0.00005));
  CHECK(interval->high == Approx(0.3339).margin(0.00005));
}

TEST_CASE("where nothing was counted there is no share and no interval") {
  CHECK_FALSE(insideline::ratio({.count = 0, .of = 0}));
  CHECK_FALSE(insideline::wilson_interval({.count = 0, .of = 0}));
  CHECK_FALSE(insideline::newcombe_interval({.count = 1, .of = 2}, {.count = 0, .of = 0}));
  CHECK(insideline::ratio({.count = 3, .of = 4}) == 0.75);
}

TEST_CASE("the size of a difference does not depend on how much was counted") {
  CHECK(insideline::effect_size(0.62, 0.50) == Approx(0.2424).margin(0.00005));
  CHECK(insideline::effect_size(0.75, 0.50) == Approx(0.5236).margin(0.00005));
  CHECK(insideline::effect_size(0.4, 0.4) == Approx(0.0).margin(1e-12));
}
