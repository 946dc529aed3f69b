#include "analyzer/placement_when_struck.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

using insideline::analyze;
using insideline::Placement;
using insideline::placement_when_struck;
using insideline::tests::analysed;

TEST_CASE("a tone struck over its own chord and kept over the change is in place when it is struck") {
  const auto line = analysed("Ebm7@0 Ab7@4", "Gb4:3 Db5:2 C5:3");
  REQUIRE(line.analysis.labels[1].placement == Placement::suspension);
  CHECK(placement_when_struck(line.analysis.labels[1]) == Placement::in_place);
}

TEST_CASE("a tone of the old chord that is struck over the new one is late, and one of the next chord early") {
  const auto late = analysed("G7@0 C@4", "B4:1 D5:1 F5:1 F5:1 F5:1 E5:3").analysis;
  REQUIRE(late.labels[4].placement == Placement::suspension);
  CHECK(placement_when_struck(late.labels[4]) == Placement::suspension);
  const auto early = analysed("G7@0 Cmaj7@4", "B4:1 D5:1 F5:1 G5:1/2 E5:1/2 E5:4").analysis;
  REQUIRE(early.labels[4].placement == Placement::anticipation);
  CHECK(placement_when_struck(early.labels[4]) == Placement::anticipation);
}

TEST_CASE("a pickup leads to the first chord and is ahead of none") {
  const auto solo = insideline::tests::solo_from("C5:1/2 E5:1/2 | G5:2 E5:2", {}, -1);
  const auto harmony = insideline::tests::harmony_from("C@0", solo, insideline::Beats(0));
  const auto labels = analyze(solo, harmony).labels;
  REQUIRE(labels[0].governor == 0U);
  REQUIRE_FALSE(labels[0].chord);
  CHECK(placement_when_struck(labels[0]) == Placement::in_place);
}
