#include "analyzer/collection/distribution.hpp"

#include <catch2/catch.hpp>

#include <vector>

using insideline::distribution_of;
using insideline::standing;
using insideline::standing_apart;
using insideline::tukey_fences;

TEST_CASE("percentiles lie between two neighbours in proportion") {
  // By hand, definition 7 of Hyndman & Fan (1996): the place of p among n values is 1 + (n - 1) p.
  const auto spread = distribution_of({4.0, 1.0, 3.0, 2.0});
  CHECK(spread.count == 4);
  CHECK(spread.lowest == Approx(1.0));
  CHECK(spread.tenth == Approx(1.3));
  CHECK(spread.lower_quarter == Approx(1.75));
  CHECK(spread.median == Approx(2.5));
  CHECK(spread.upper_quarter == Approx(3.25));
  CHECK(spread.nine_tenths == Approx(3.7));
  CHECK(spread.highest == Approx(4.0));
}

TEST_CASE("one solo is its own distribution") {
  const auto spread = distribution_of({0.7});
  CHECK(spread.lowest == Approx(0.7));
  CHECK(spread.median == Approx(0.7));
  CHECK(spread.nine_tenths == Approx(0.7));
}

TEST_CASE("the fences stand one and a half widths outside of the middle half") {
  const auto fences = tukey_fences(distribution_of({1.0, 2.0, 3.0, 4.0, 5.0}));  // quarters 2 and 4
  CHECK(fences.low == Approx(-1.0));
  CHECK(fences.high == Approx(7.0));
}

TEST_CASE("what stands apart is named, the furthest first") {
  const std::vector<double> values{5.0, 4.0, 30.0, 5.0, 6.0, -20.0, 5.5, 4.5, 100.0};
  CHECK(standing_apart(values) == std::vector<std::size_t>{8, 5, 2});
}

TEST_CASE("nothing stands apart from few solos, from equals, or on the fence itself") {
  CHECK(standing_apart(std::vector<double>{1.0, 1.1, 1.2, 1.3, 1.4, 1.5, 99.0}).empty());
  CHECK(standing_apart(std::vector<double>{1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 99.0}).empty());
  CHECK(standing_apart(std::vector<double>{1.0, 2.0, 2.0, 3.0, 3.0, 3.0, 4.0, 4.0, 7.0}).empty());  // fences -1 and 7
}

TEST_CASE("a solo stands above those below it and half of its equals") {
  const std::vector<double> values{1.0, 2.0, 2.0, 3.0};
  CHECK(standing(values, 0.0) == Approx(0.0));
  CHECK(standing(values, 1.0) == Approx(0.125));
  CHECK(standing(values, 2.0) == Approx(0.5));
  CHECK(standing(values, 2.5) == Approx(0.75));
  CHECK(standing(values, 9.0) == Approx(1.0));
}
