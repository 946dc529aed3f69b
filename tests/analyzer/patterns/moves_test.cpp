#include "analyzer/patterns/moves.hpp"

#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

using insideline::scale_steps;
using insideline::tests::analysed;

TEST_CASE("moves count as the steps of a scale, whether small or large") {
  const auto [semitones, steps] = GENERATE(table<int, int>(
      {{0, 0}, {1, 1}, {2, 1}, {3, 2}, {4, 2}, {5, 3}, {6, 3}, {7, 4}, {9, 5}, {10, 6}, {12, 7}, {14, 8}, {-4, -2}}));
  CHECK(scale_steps(semitones) == steps);
}

TEST_CASE("a line goes on where no rest of a beat and no phrase end stands between") {
  const auto line = analysed("C@0", "C4:1 D4:1/2 r:1 E4:1/2 F4:1");
  CHECK_FALSE(goes_on(line.heard, 0));
  CHECK(goes_on(line.heard, 1));
  CHECK_FALSE(goes_on(line.heard, 2));
  CHECK(goes_on(line.heard, 3));
  CHECK_FALSE(goes_on(line.heard, 4));
}
