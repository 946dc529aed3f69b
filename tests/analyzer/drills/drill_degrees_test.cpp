#include "analyzer/drills/drill_degrees.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::Drill;
using insideline::DrillCell;
using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::tests::chart;
using insideline::tests::drilled;

namespace {

DrillSettings cell_of(const std::vector<int>& numbers) {
  DrillSettings settings;
  settings.kind = DrillKind::cells;
  DrillCell cell;
  for (const int number : numbers) cell.tones.push_back({{number, 0}, false});
  settings.cells.push_back(cell);
  return settings;
}

/// The degrees of the sheet's first notes, "1 b2 b3 b5"; in parentheses those that the chord does not have.
std::string first_degrees(const Drill& drill, const DrillSettings& settings, std::size_t count) {
  std::string text;
  const auto degrees = degrees_of(drill, settings);
  for (std::size_t i = 0; i < count; ++i) {
    if (i > 0) text += ' ';
    if (!degrees.at(i)) {
      text += '-';
      continue;
    }
    text += degrees[i]->of_chord ? to_string(degrees[i]->degree) : "(" + to_string(degrees[i]->degree) + ")";
  }
  return text;
}

}  // namespace

TEST_CASE("in a cell the player says the numbers of the cell, 2 and not 9, b6 and not b13") {
  const auto [symbol, numbers, said] = GENERATE(table<std::string, std::vector<int>, std::string>({
      {"C7", {1, 2, 3, 5}, "1 2 3 5"},
      {"Bm7b5", {1, 2, 3, 5}, "1 b2 b3 b5"},
      {"D7alt", {1, 2, 3, 5}, "1 b2 3 #5"},
      {"Bm7b5", {5, 6, 7, 1}, "b5 b6 b7 1"},
      {"C7", {3, 5, 7, 9}, "3 5 b7 9"},  // who asks for 9 says 9
      {"F6", {7, 3, 5, 1}, "6 3 5 1"},
  }));
  const DrillSettings settings = cell_of(numbers);
  CHECK(first_degrees(drilled(chart(symbol), settings), settings, 4) == said);
}

TEST_CASE("a cell that the end of its chord cuts off keeps its numbers") {
  const DrillSettings settings = cell_of({1, 2, 3});
  CHECK(first_degrees(drilled(chart("Am7b5"), settings), settings, 8) == "1 b2 b3 1 b2 b3 1 b2");
}

TEST_CASE("the notes that enclose a third have their degree as well, in parentheses where the chord has them not") {
  DrillSettings settings;
  settings.kind = DrillKind::enclosures;
  const Drill drill = drilled(chart("Dm7 | G7 | Cmaj7 | A7 | Dm7"), settings);
  const auto degrees = degrees_of(drill, settings);
  int between = 0;
  for (std::size_t i = 0; i < degrees.size(); ++i) {
    REQUIRE(degrees[i]);
    const auto chord = chord_index_at(drill.harmony, drill.solo.notes[i].onset);
    const bool is_tone =
        tone_with(drill.harmony.chords[*chord].chord, pitch_class(drill.solo.notes[i].pitch.name)).has_value();
    CHECK(degrees[i]->of_chord == is_tone);
    between += is_tone ? 0 : 1;
  }
  CHECK(between == 3);
}
