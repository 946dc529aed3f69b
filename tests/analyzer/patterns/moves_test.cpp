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

TEST_CASE("two moves are the same where the steps and the time from note to note are") {
  const auto line = analysed("C@0", "C4:1/2 D4:1/2 Eb4:1/2 F4:1/3 G4:1/3 E4:1/3 F4:1 A4:1/2 r:2 B4:1/2");
  const auto moves = moves_of(line.heard);
  const auto& [waits, shapes] = moves;
  CHECK(waits[1] == waits[2]);
  CHECK(waits[3] == waits[1]);
  CHECK(waits[4] != waits[3]);
  CHECK(waits[4] == waits[6]);
  CHECK(shapes[1] == shapes[2]);  // a whole step and a half step
  CHECK(shapes[1] == shapes[3]);
  CHECK(shapes[4] != shapes[3]);  // faster
  CHECK(shapes[5] != shapes[4]);  // down
  CHECK(shapes[6] == shapes[4]);
}

TEST_CASE("where the line does not go on there is no move") {
  const auto line = analysed("C@0", "C4:1 D4:1/2 r:1 E4:1/2 F4:1");
  const auto moves = moves_of(line.heard);
  CHECK(moves.shapes[0] == insideline::no_move);
  CHECK(moves.shapes[1] >= 0);
  CHECK(moves.shapes[2] == insideline::no_move);
  CHECK(moves.shapes[3] >= 0);
}
