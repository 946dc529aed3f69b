#include "analyzer/drills/guide_tone_line.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::least_guide_motion;
using insideline::tests::chart;
using insideline::tests::drilled;
using insideline::tests::names_of;

TEST_CASE("the least motion of guide tones, as textbooks have it") {
  struct Row {
    std::vector<int> from;
    std::string to;
    int semitones;
  };
  const std::vector<Row> rows{
      {{65}, "G7", 0},         // F, the third of Dm7, is the seventh of G7
      {{60}, "G7", 1},         // C, the seventh of Dm7, to B
      {{65, 60}, "G7", 1},     // both at once
      {{65, 59}, "Cmaj7", 1},  // F and B of G7 to E and B
      {{65, 59}, "Gb7", 2},    // a half step each
      {{65, 59}, "Db7", 0},    // a tritone away: the same two tones
  };
  for (const Row& row : rows) {
    INFO(row.to);
    CHECK(least_guide_motion(row.from, insideline::parse_chord_symbol(row.to)->value()) == row.semitones);
  }
}

TEST_CASE("the guide tones of two-five-one, in one voice and in two") {
  // F F E and C B B: Hutchinson, Music Theory for the 21st-Century Classroom, 31.7.
  DrillSettings settings;
  settings.kind = DrillKind::guide_tones;
  settings.range = {59, 72};
  settings.voices = 2;
  CHECK(names_of(drilled(chart("Dm7 | G7 | Cmaj7"), settings)) == "F4 C4 | F4 B3 | E4 B3");
  settings.voices = 1;
  settings.range = {64, 76};
  const std::string line = names_of(drilled(chart("Dm7 | G7 | Cmaj7"), settings));
  CHECK((line == "F4 | F4 | E4" || line == "C5 | B4 | B4" || line == "F5 | F5 | E5"));
}

TEST_CASE("a guide tone is held while its chord lasts") {
  DrillSettings settings;
  settings.kind = DrillKind::guide_tones;
  const auto drill = drilled(chart("Dm7 | % | G7"), settings);
  REQUIRE(drill.solo.notes.size() == 2);
  CHECK(drill.solo.notes.front().duration == insideline::Beats(8));
}
