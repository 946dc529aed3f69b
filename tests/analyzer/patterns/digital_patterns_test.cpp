#include "analyzer/patterns/digital_patterns.hpp"

#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

namespace {

std::string steps_in(const std::string& chords, const std::string& melody) {
  std::string text;
  for (const auto& pattern : analysed(chords, melody).analysis.patterns.digital) text += pattern.steps + "; ";
  return text;
}

}  // namespace

TEST_CASE("four even notes on the steps of the chord's scale are a digital pattern") {
  const auto [chord, melody, steps] = GENERATE(table<std::string, std::string, std::string>({
      {"C7@0", "C4 D4 E4 G4", "1 2 3 5; "},
      {"Dm7@0", "D4 E4 F4 A4", "1 2 b3 5; "},
      {"Cmaj7@0", "G4 E4 D4 C4", "5 3 2 1; "},
      {"Gm7@0", "G4 Bb4 C5 D5", "1 b3 4 5; "},
      {"C7@0 F7@2", "C4 D4 E4 G4 F4 G4 A4 C5", "1 2 3 5; 1 2 3 5; "},
      {"C7@0", "C4 D4 E4 G3", ""},        // the fifth below
      {"C7@0", "C4 D4 Eb4 G4", ""},       // not the chord's third
      {"C7@0", "C4 D4 E4 F4", ""},        // a scale
      {"Am7@0", "C4 D4 E4 G4", ""},       // of another chord
      {"C7@0", "B3 C4 D4 E4 G4 A4", ""},  // off the beat
  }));
  CHECK(steps_in(chord, in_lengths_of("1/2", melody)) == steps);
}

TEST_CASE("a digital pattern is even") {
  CHECK(steps_in("C7@0", "C4:1/2 D4:1/2 E4:1 G4:1/2").empty());
  CHECK(steps_in("C7@0", "C4:1 D4:1 E4:1 G4:1") == "1 2 3 5; ");
}
