#include "analyzer/heaps.hpp"

#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

TEST_CASE("a whole chord with two colours of the one below is not run together with the tones around it") {
  const auto [why, chord, melody, expected] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {"a triad after two tones", "F7@0", "Eb5 C5 G4 B4 D5 G5", "9 #11 13 9 | "},
      {"the same triad alone", "F7@0", "G4 B4 D5 G5", "9 #11 13 9 | "},
      {"with its root, before tones", "F7@0", "B4 D#5 F#5 B5 F5 Eb5 D5 C5", "#11 b7 b9 #11 | "},
      {"the stack goes on third by third", "C7@0", "E4 G4 Bb4 D5 F#5", "3 5 b7 9 #11 | "},
      {"a triad within the arpeggio", "Cmaj7@0", "G5 D5 B4 G4 E4 C4", "5 9 7 5 3 1 | "},
  }));
  INFO(why);
  std::string found;
  for (const auto& arpeggio : analysed(chord, in_lengths_of("1/2", melody)).analysis.arpeggios) {
    for (const auto& degree : arpeggio.degrees) found += to_string(degree) + ' ';
    found += "| ";
  }
  CHECK(found == expected);
}
