#include "analyzer/cells.hpp"

#include "tests/support/analysed.hpp"

#include <algorithm>
#include <string>

#include <catch2/catch.hpp>

using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

namespace {

std::string cells_of(const std::string& chords, const std::string& melody) {
  std::string text;
  for (const insideline::Cell& cell : analysed(chords, melody).analysis.cells) {
    for (const insideline::Degree& degree : cell.degrees) text += to_string(degree) + ' ';
    text += to_string(cell.direction) + ", " + to_string(cell.quality) + " x" + std::to_string(cell.count) + "; ";
  }
  return text;
}

}  // namespace

TEST_CASE("two and three tones of a chord in a row are cells, the most frequent first") {
  const auto [chords, melody, cells] = GENERATE(table<std::string, std::string, std::string>({
      {"C7", "C4 E4", "1 3 ascending, dominant x1; "},
      {"Cmaj7", "B4 E4", "7 3 descending, major x1; "},
      {"Dm7", "D4 A4 F4", "1 5 ascending, minor x1; 5 b3 descending, minor x1; 1 5 b3 mixed, minor x1; "},
      {"C", "C4 G4 C4 G4", "1 5 ascending, major x2; 5 1 descending, major x1; "},
      {"C", "C4 D4 E4", ""},  // the ninth is no tone of the chord
      {"C", "C4 C5", ""},     // the same tone
      {"Bm7b5", "F4 B4", "b5 1 ascending, half-diminished x1; "},
      {"C7", "C5 Bb4", ""},  // a step of the scale
      {"C6", "G4 A4 C5", "6 1 ascending, major x1; "},
      {"C7", "Bb4 C4", "b7 1 descending, dominant x1; "},  // the same tones, and no step
      {"C7", "Bb3 G4", "b7 5 ascending, dominant x1; "},
  }));
  CHECK(cells_of(chords + "@0", in_lengths_of("1", melody)) == cells);
}

TEST_CASE("a cell does not cross a change of chord or the end of a phrase") {
  CHECK(cells_of("C@0 Am@2", "G4:2 C5:2").empty());
  CHECK(cells_of("C@0", "G4:1 r:1 C5:2").empty());
  CHECK(cells_of("C@0 C@4", "G4:4 C5:4") == "5 1 ascending, major x1; ");
}

TEST_CASE("cells of two notes are no arpeggios") {
  CHECK(analysed("C@0", "C4:1 G4:1 A4:1 B4:1 C5:1 G4:1").analysis.arpeggios.empty());
}

TEST_CASE("there are never more cells than places for them") {
  const auto line = insideline::tests::random_line(3, 16);
  int two = 0;
  int three = 0;
  for (const auto& cell : insideline::tests::analysed(line.solo, line.harmony).analysis.cells)
    (cell.degrees.size() == 2 ? two : three) += cell.count;
  CHECK(two > 0);
  CHECK(three <= two);
  CHECK(two < static_cast<int>(line.solo.notes.size()));
}
