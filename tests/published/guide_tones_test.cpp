// Thirds and sevenths in circle-of-fifths motion move by step or stay; in sus and sixth
// chords the fourth and the sixth stand in: Hutchinson, Music Theory for the 21st-Century
// Classroom, 31.7. The rule for root motion down a fifth is worked out from the intervals.
#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Connection;
using insideline::tests::analysed;

namespace {

std::string described(const Connection& connection) {
  return to_string(*connection.from_degree) + "-" + to_string(*connection.to_degree) + " " +
         std::to_string(*connection.semitones) + (connection.guide_tone ? " guide" : " free");
}

std::string connections(const std::string& chords, const std::string& melody) {
  std::string text;
  for (const Connection& connection : analysed(chords, melody).analysis.connections)
    text += (text.empty() ? "" : ", ") + described(connection);
  return text;
}

}  // namespace

TEST_CASE("both guide-tone lines of a cadence keep a tone or step down") {
  const auto [chords, melody, expected] = GENERATE(table<std::string, std::string, std::string>({
      {"Dm7@0 G7@4 Cmaj7@8", "F4:4 F4:4 E4:4", "b3-b7 0 guide, b7-3 -1 guide"},
      {"Dm7@0 G7@4 Cmaj7@8", "C4:4 B3:4 B3:4", "b7-3 -1 guide, 3-7 0 guide"},
      {"Dm7b5@0 G7@4 CmMaj7@8", "F4:4 F4:4 Eb4:4", "b3-b7 0 guide, b7-b3 -2 guide"},
      {"Dm7b5@0 G7@4 CmMaj7@8", "C4:4 B3:4 B3:4", "b7-3 -1 guide, 3-7 0 guide"},
      {"G7@0 Cm7@4", "B3:4 Bb3:4", "3-b7 -1 guide"},
      {"G7@0 C6@4", "B3:4 A3:4", "3-6 -2 guide"},
      {"G7@0 Cm6@4", "B3:4 A3:4", "3-6 -2 guide"},
      {"Dm7@0 G7sus4@4", "C4:4 C4:4", "b7-4 0 guide"},
      {"G7@0 Db7@4", "B3:4 Cb4:4", "3-b7 0 guide"},  // a tritone apart they share both
      {"G7@0 Db7@4", "F4:4 F4:4", "b7-3 0 guide"},
  }));
  CHECK(connections(chords, melody) == expected);
}

TEST_CASE("down a fifth the seventh goes to the third") {
  const auto [chords, melody, expected] = GENERATE(table<std::string, std::string, std::string>({
      {"C7@0 F@4", "Bb4:4 A4:4", "b7-3 -1 guide"},
      {"C7@0 Fm@4", "Bb4:4 Ab4:4", "b7-b3 -2 guide"},
      {"Cmaj7@0 F@4", "B4:4 A4:4", "7-3 -2 guide"},
      {"Cmaj7@0 Fm@4", "B4:4 Ab4:4", "7-b3 -3 free"},  // no step
  }));
  CHECK(connections(chords, melody) == expected);
}

TEST_CASE("down a fifth the third goes to the seventh") {
  const auto [chords, melody, expected] = GENERATE(table<std::string, std::string, std::string>({
      {"Cm7@0 F7@4", "Eb4:4 Eb4:4", "b3-b7 0 guide"},
      {"Cm7@0 Fmaj7@4", "Eb4:4 E4:4", "b3-7 1 guide"},
      {"C7@0 F7@4", "E4:4 Eb4:4", "3-b7 -1 guide"},
      {"C7@0 Fmaj7@4", "E4:4 E4:4", "3-7 0 guide"},
  }));
  CHECK(connections(chords, melody) == expected);
}
