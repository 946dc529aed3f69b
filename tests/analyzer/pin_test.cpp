#include "analyzer/pin.hpp"

#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

using insideline::beat_text;
using insideline::Beats;
using insideline::pinned_note;
using insideline::tests::solo_from;

TEST_CASE("a pin finds its note, and each of the grace notes before it") {
  const auto solo = solo_from("C4:1 D4:0 E4:0 F4:1 G4:1");
  CHECK(pinned_note(solo, {.onset = Beats(1), .grace = 0}) == 3);
  CHECK(pinned_note(solo, {.onset = Beats(1), .grace = 1}) == 1);
  CHECK(pinned_note(solo, {.onset = Beats(1), .grace = 2}) == 2);
  CHECK(pinned_note(solo, {.onset = Beats(2), .grace = 0}) == 4);
}

TEST_CASE("a pin where no note begins finds none") {
  const auto solo = solo_from("C4:1 D4:0 E4:1");
  CHECK_FALSE(pinned_note(solo, {.onset = Beats(1, 2), .grace = 0}));
  CHECK_FALSE(pinned_note(solo, {.onset = Beats(1), .grace = 2}));
  CHECK_FALSE(pinned_note(solo, {.onset = Beats(0), .grace = 1}));
}

TEST_CASE("beats are written as a teacher writes them") {
  CHECK(beat_text(Beats(1)) == "1");
  CHECK(beat_text(Beats(5, 2)) == "2.5");
  CHECK(beat_text(Beats(17, 8)) == "2.125");
  CHECK(beat_text(Beats(7, 3)) == "7/3");
  CHECK(beat_text(Beats(81, 16)) == "81/16");
}
