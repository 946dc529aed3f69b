#include "reports/from_sound.hpp"

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::reports::from_sound_in_words;

TEST_CASE("a line from a recording says how many notes are unsure and where") {
  CHECK_THAT(from_sound_in_words({.notes = 122, .unsure = 0}),
             Contains("122 notes, none of them unsure") && Contains("Nothing is said of the tone"));
  CHECK_THAT(from_sound_in_words({.notes = 9, .unsure = 1, .places = {"bar 3"}}), Contains("1 is unsure, at bar 3"));
  CHECK_THAT(from_sound_in_words({.notes = 9, .unsure = 2, .places = {"bar 3", "0:12"}}),
             Contains("2 are unsure, at bar 3 and 0:12"));
}
