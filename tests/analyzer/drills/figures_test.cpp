#include "analyzer/drills/figures.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <set>
#include <string>

using insideline::arpeggio_tones;
using insideline::Beats;
using insideline::Chord;
using insideline::DrillFigure;
using insideline::DrillFigures;
using insideline::DrillKind;
using insideline::DrillSegment;
using insideline::DrillSettings;
using insideline::figures_over;
using insideline::Inversion;
using insideline::own_tone;
using insideline::parse_chord_symbol;
using insideline::Way;

namespace {

Chord chord(const std::string& symbol) { return parse_chord_symbol(symbol)->value(); }

DrillSegment segment_of(std::size_t slots) {
  DrillSegment segment;
  for (std::size_t i = 0; i < slots; ++i)
    segment.slots.push_back({Beats(static_cast<std::int64_t>(i), 2), Beats(1, 2)});
  return segment;
}

std::set<std::string> written(const DrillFigures& set) {
  std::set<std::string> all;
  for (const DrillFigure& figure : set.figures) {
    std::string text;
    for (const int midi : set.notes_of(figure)) text += (text.empty() ? "" : " ") + std::to_string(midi);
    all.insert(text);
  }
  return all;
}

}  // namespace

TEST_CASE("a number means the chord's own tone") {
  auto [symbol, number, expected] = GENERATE(table<std::string, int, std::string>({
      {"Cmaj7", 3, "3"},
      {"Cm7", 3, "b3"},
      {"C7sus4", 3, "4"},
      {"Cmaj7", 7, "7"},
      {"C7", 7, "b7"},
      {"Cdim7", 7, "bb7"},
      {"C6", 7, "6"},
      {"Cm7b5", 5, "b5"},
      {"C7(b9)", 9, "b9"},
      {"Cm7", 9, "9"},
      {"C", 7, "none"},
      {"C7alt", 5, "none"},
  }));
  const auto tone = own_tone(chord(symbol), number);
  CHECK((tone ? to_string(*tone) : "none") == expected);
}

TEST_CASE("an arpeggio is made of thirds up to the seventh; a ninth is not among its tones") {
  CHECK(arpeggio_tones(chord("C9")).size() == 4);
  CHECK(arpeggio_tones(chord("Ebm7")).size() == 4);
  CHECK(arpeggio_tones(chord("F")).size() == 3);
}

TEST_CASE("arpeggios go one way, from the tone or in the inversion that is asked for") {
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  settings.range = {60, 76};  // C4 to E5
  SECTION("down") {
    settings.way = Way::down;
    CHECK(written(figures_over(chord("C7"), segment_of(4), settings)) ==
          std::set<std::string>{"70 67 64 60", "72 70 67 64", "76 72 70 67"});
  }
  SECTION("down from the seventh") {
    settings.way = Way::down;
    settings.from_tone = 7;
    CHECK(written(figures_over(chord("C7"), segment_of(4), settings)) == std::set<std::string>{"70 67 64 60"});
  }
  SECTION("first inversion has its third lowest, up or down") {
    settings.inversion = Inversion::first;
    CHECK(written(figures_over(chord("C7"), segment_of(4), settings)) == std::set<std::string>{"64 67 70 72"});
    settings.way = Way::down;
    CHECK(written(figures_over(chord("C7"), segment_of(4), settings)) == std::set<std::string>{"72 70 67 64"});
  }
  SECTION("what a chord does not have is not pretended") {
    settings.inversion = Inversion::third;
    const DrillFigures set = figures_over(chord("C"), segment_of(3), settings);
    CHECK_FALSE(set.as_asked);
    CHECK_FALSE(set.figures.empty());
  }
}

TEST_CASE("a cell keeps its order and goes one way") {
  DrillSettings settings;
  settings.kind = DrillKind::cells;
  settings.range = {60, 76};
  settings.cells = {{{{{5, 0}, false}, {{7, 0}, false}, {{1, 0}, false}}, std::nullopt}};
  CHECK(written(figures_over(chord("C7"), segment_of(3), settings)) == std::set<std::string>{"67 70 72"});
  settings.cells.front().tones = {{{1, 0}, false}, {{7, 0}, false}, {{5, 0}, false}};
  CHECK(written(figures_over(chord("C7"), segment_of(3), settings)) == std::set<std::string>{"72 70 67"});
  settings.cells.front().tones = {{{1, 0}, false}, {{7, 0}, false}};
  CHECK(written(figures_over(chord("C"), segment_of(2), settings)) == std::set<std::string>{"60 71", "72 71"});
}

TEST_CASE("a line climbs the chord tone by tone, never strikes a tone twice, and stays in the range") {
  DrillSettings settings;
  settings.range = {60, 72};
  const DrillFigures set = figures_over(chord("C7"), segment_of(8), settings);
  CHECK(set.figures.size() > 10);
  for (const DrillFigure& figure : set.figures) {
    const auto notes = set.notes_of(figure);
    REQUIRE(notes.size() == 8);
    for (std::size_t i = 1; i < notes.size(); ++i) CHECK(notes[i] != notes[i - 1]);
    for (const int midi : notes) CHECK((midi >= 60 && midi <= 72));
  }
}
