#include "analyzer/collection/solo_rows.hpp"

#include "analyzer/measures/figure_table.hpp"
#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using insideline::FigureEntry;
using insideline::solo_rows;

TEST_CASE("a solo's rows are its analysis, entry for entry") {
  const auto line = insideline::tests::analysed("Cmaj7@0 Dm7@4", "C4:1 E4:1 G4:1 B4:1 | A4:1 F4:1 D4:1 C4:1");
  const auto rows = solo_rows(line.solo, line.analysis);
  REQUIRE(rows.notes.size() == line.solo.notes.size());
  REQUIRE(rows.chords.size() == 2);
  CHECK(rows.chords[1].symbol == "Dm7");
  CHECK(rows.chords[1].quality == "minor");
  CHECK(rows.chords[1].bar == 2);
  CHECK(rows.notes[1].name == "E4");
  CHECK(rows.notes[1].midi == 64);
  CHECK(rows.notes[1].degree == "3");
  CHECK(rows.notes[1].onset == Approx(1.0));
  CHECK(rows.notes[4].bar == 2);
  REQUIRE(rows.arpeggios.size() == line.analysis.arpeggios.size());
  REQUIRE_FALSE(rows.arpeggios.empty());
  CHECK(rows.arpeggios[0].shape == "1-3-5-7");
  CHECK(rows.arpeggios[0].first_note == 0);
  CHECK(rows.arpeggios[0].complete);
  REQUIRE(rows.connections.size() == 1);
  CHECK(rows.connections[0].semitones == -2);
  CHECK(rows.cells.size() == line.analysis.cells.size());
}

TEST_CASE("the figures are those that solos are compared by, the parts adding up to the value") {
  const auto random = insideline::tests::random_line(3, 16);
  const auto line = insideline::tests::analysed(random.solo, random.harmony);
  const auto rows = solo_rows(line.solo, line.analysis);
  REQUIRE(rows.figures.size() == insideline::figure_rows().size());
  for (const FigureEntry& figure : rows.figures) {
    INFO(figure.key);
    if (figure.value) CHECK(*figure.value == Approx(figure.part / figure.whole));
  }
  const FigureEntry& chord_tones = rows.figures.front();
  CHECK(chord_tones.key == "chord_tones");
  CHECK(chord_tones.part == Approx(line.analysis.summary.chord_tone_share.count));
  CHECK(chord_tones.whole == Approx(line.analysis.summary.chord_tone_share.of));
}
