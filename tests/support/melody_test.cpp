#include "tests/support/melody.hpp"

#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Harmony;
using insideline::Meter;
using insideline::Solo;
using insideline::tests::harmony_from;
using insideline::tests::solo_from;

TEST_CASE("the shorthand places notes one after the other") {
  const Solo solo = solo_from("C4:1 E4:1/2 r:1/2 G4:0.5 Bb4:3/2");
  REQUIRE(solo.notes.size() == 4);
  CHECK(solo.notes[1].onset == Beats(1));
  CHECK(solo.notes[2].onset == Beats(2));
  CHECK(solo.notes[3].onset == Beats(5, 2));
  CHECK(solo.notes[3].duration == Beats(3, 2));
  CHECK(to_string(solo.notes[3].pitch) == "Bb4");
  REQUIRE(solo.bars.size() == 1);
  CHECK(end_of(solo) == Beats(4));
}

TEST_CASE("a tie makes a note longer and a grace note has no length") {
  const Solo solo = solo_from("C5:2 C5~:3 B4:0 A4:1");
  REQUIRE(solo.notes.size() == 3);
  CHECK(solo.notes[0].duration == Beats(5));
  CHECK(solo.notes[1].grace);
  CHECK(solo.notes[1].onset == solo.notes[2].onset);
  CHECK_FALSE(solo.notes[2].grace);
  CHECK(solo.bars.size() == 2);
}

TEST_CASE("a melody may begin later in the bar or in a pickup") {
  CHECK(solo_from("C4:1", Meter{4, 4}, 3).notes[0].onset == Beats(2));
  CHECK(solo_from("C4:1", Meter{6, 8}, 4).notes[0].onset == Beats(3, 2));
  const Solo pickup = solo_from("G4:1/2 A4:1/2 | C5:4", Meter{4, 4}, -1);
  CHECK(pickup.notes[0].onset == Beats(-1));
  CHECK(pickup.notes[2].onset == Beats(0));
  REQUIRE(pickup.bars.size() == 2);
  CHECK(pickup.bars[0].number == 0);
  CHECK(pickup.bars[0].length == Beats(1));
}

TEST_CASE("a slip in the shorthand is an error, not another melody") {
  const auto [melody, message] = GENERATE(table<std::string, std::string>({
      {"C4", "a note needs its length: C4"},
      {"H4:1", "not a pitch: H4:1"},
      {"C4:x", "not a length in quarters: x"},
      {"C4~:1", "no note to tie to: C4~:1"},
      {"C4:3 | D4:1", "a bar line inside a bar, at 3"},
  }));
  CHECK_THROWS_AS(solo_from(melody), std::invalid_argument);
  CHECK_THROWS_WITH(solo_from(melody), message);
}

TEST_CASE("the chords of the shorthand last to the next one and leave gaps for N.C.") {
  const Solo solo = solo_from("C4:4 | D4:4 | E4:4");
  const Harmony harmony = harmony_from("C@0 G7@2 N.C.@4 F@8", solo);
  REQUIRE(harmony.chords.size() == 3);
  CHECK(harmony.chords[0].duration == Beats(2));
  CHECK(harmony.chords[1].duration == Beats(2));
  CHECK(harmony.chords[2].onset == Beats(8));
  CHECK(harmony.chords[2].duration == Beats(4));
  CHECK_THROWS_WITH(harmony_from("C", solo), "a chord needs its onset: C");
}
