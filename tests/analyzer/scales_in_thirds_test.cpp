#include "analyzer/scales_in_thirds.hpp"

#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

TEST_CASE("a scale in thirds has three thirds at least, each a step from the last, all one way") {
  const auto [melody, notes, rises] = GENERATE(table<std::string, std::size_t, bool>({
      {"C4 E4 D4 F4 E4 G4", 6, true},
      {"E4 C4 F4 D4 G4 E4 A4 F4", 8, true},
      {"A4 C5 G4 B4 F4 A4 E4 G4 C4", 8, false},
      {"C4 E4 D4 F4", 0, false},        // two thirds
      {"C4 E4 G4 B4 D5 F5", 0, false},  // no step between them
      {"C4 E4 D4 F4 C4 E4", 0, false},  // up and back
      {"C4 E4 D4 B3 E4 G4", 0, false},  // one of them the other way
  }));
  const auto scales = find_scales_in_thirds(analysed("Cmaj7@0", in_lengths_of("1/2", melody)).heard);
  REQUIRE(scales.size() == (notes > 0 ? 1 : 0));
  if (notes == 0) return;
  CHECK(scales[0].last + 1 - scales[0].first == notes);
  CHECK(scales[0].rises == rises);
}

TEST_CASE("equal thirds a half step from each other are of no scale") {
  const auto [melody, no_scale] = GENERATE(table<std::string, bool>({
      {"Bb4 G4 A4 Gb4 Ab4 F4", true},
      {"C4 E4 C#4 F4 D4 F#4", true},
      {"B4 G#4 Bb4 G4 Ab4 F4", false},  // a whole step
      {"E4 C4 F4 D4 F#4 D#4", false},   // thirds of two sizes
  }));
  const auto line = analysed("Cmaj7@0", in_lengths_of("1/2", melody));
  const auto scales = find_scales_in_thirds(line.heard);
  REQUIRE(scales.size() == 1);
  CHECK(scales[0].of_no_scale == no_scale);
  for (const auto& sequence : line.analysis.patterns.sequences) CHECK(sequence.thirds == !no_scale);
}

TEST_CASE("a rest of a beat ends a scale in thirds") {
  const auto line = analysed("Cmaj7@0", "C4:1/2 E4:1/2 D4:1/2 F4:1/2 r:1 E4:1/2 G4:1/2 F4:1/2 A4:1/2");
  CHECK(find_scales_in_thirds(line.heard).empty());
}
