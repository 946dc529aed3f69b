#include "analyzer/patterns/sequences.hpp"

#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

namespace {

/// "3 notes, 3 times, up"
std::string sequences_in(const std::string& melody) {
  std::string text;
  for (const insideline::Sequence& sequence : analysed("Cmaj7@0", melody).analysis.patterns.sequences)
    text += std::to_string(sequence.notes) + " notes, " + std::to_string(sequence.times) + " times, " +
            (sequence.up ? "up" : "down") + (sequence.thirds ? ", thirds; " : "; ");
  return text;
}

}  // namespace

TEST_CASE("a shape that is moved the same way three times is a sequence") {
  const auto [melody, found] = GENERATE(table<std::string, std::string>({
      {"C4 D4 E4 C4 D4 E4 F4 D4 E4 F4 G4 E4", "4 notes, 3 times, up; "},
      {"G5 F5 E5 G5 F5 E5 D5 F5 E5 D5 C5 E5", "4 notes, 3 times, down; "},
      {"C4 E4 G4 D4 F4 A4 E4 G4 B4", "3 notes, 3 times, up; "},
      {"C4 G4 D4 A4 E4 B4 F4 C5", "2 notes, 4 times, up; "},
      {"C4 E4 D4 F4 E4 G4", "2 notes, 3 times, up, thirds; "},
      {"C4 D4 E4 F4 G4 A4 B4 C5 D5 E5", ""},                                // a scale
      {"C4 E4 G4 C4 E4 G4 C4 E4 G4", ""},                                   // the same again, not moved
      {"C4 E4 G4 D4 F4 A4 C4 E4 G4", ""},                                   // there and back
      {"C4 D4 E4 G4 D4 E4 F4 A4", ""},                                      // twice only
      {"C4 D4 E4 G4 E4 C4 D4 E4 F#4 A4 F#4 D4", "6 notes, 2 times, up; "},  // twice, and long
  }));
  CHECK(sequences_in(in_lengths_of("1/2", melody)) == found);
}

TEST_CASE("another rhythm or a rest of a beat ends a sequence") {
  CHECK(sequences_in("C4:1/2 E4:1/2 G4:1/2 D4:1/2 F4:1/2 A4:1/2 E4:1/2 G4:1 B4:1/2").empty());
  CHECK(sequences_in("C4:1/2 E4:1/2 G4:1/2 D4:1/2 F4:1/2 A4:1/2 r:2 E4:1/2 G4:1/2 B4:1/2").empty());
}
