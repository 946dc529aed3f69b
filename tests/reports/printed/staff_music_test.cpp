#include "reports/printed/staff_music.hpp"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>
#include <vector>

using insideline::parse_pitch;
using insideline::Pitch;
using insideline::reports::clef_for;

TEST_CASE("the clef is the one with the fewest ledger lines") {
  const auto [notes, clef] = GENERATE(table<std::string, std::string>({
      {"C4 E4 G4 C5", "treble"},
      {"C3 E3 G3", "bass"},
      {"C4 C4 C4", "bass"},
      {"A3 C4 E4 G4 A4", "treble"},
      {"E6 G6 B6 C7", "\"treble^8\""},
      {"E1 G1 A1", "\"bass_8\""},
      {"", "treble"},
  }));
  std::vector<Pitch> pitches;
  std::istringstream words(notes);
  for (std::string word; words >> word;) pitches.push_back(*parse_pitch(word));
  INFO(notes);
  CHECK(clef_for(pitches) == clef);
}
