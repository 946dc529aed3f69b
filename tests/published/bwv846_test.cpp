// J. S. Bach, Prelude in C major BWV 846, bars 1-12 and 25-32 (35-bar numbering, public
// domain). Each bar is five notes, played n1 n2 n3 n4 n5 n3 n4 n5 in sixteenths, twice.
// Chords as in the open When in Rome analyses. All counts were made by hand.
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <array>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Share;
using insideline::tests::analysed;
using insideline::tests::AnalysedLine;

namespace {

struct BachBar {
  std::string chord;
  std::string notes;
};

const std::vector<BachBar> bars_1_to_12 = {
    {"C", "C4 E4 G4 C5 E5"},   {"Dm7/C", "C4 D4 A4 D5 F5"},   {"G7/B", "B3 D4 G4 D5 F5"},
    {"C", "C4 E4 G4 C5 E5"},   {"Am/C", "C4 E4 A4 E5 A5"},    {"D7/C", "C4 D4 F#4 A4 D5"},
    {"G/B", "B3 D4 G4 D5 G5"}, {"Cmaj7/B", "B3 C4 E4 G4 C5"}, {"Am7", "A3 C4 E4 G4 C5"},
    {"D7", "D3 A3 D4 F#4 C5"}, {"G", "G3 B3 D4 G4 B4"},       {"C#dim7/G", "G3 Bb3 E4 G4 C#5"},
};

const std::vector<BachBar> bars_25_to_32 = {
    {"C/G", "G2 E3 G3 C4 E4"}, {"G7", "G2 D3 G3 C4 F4"}, {"G7", "G2 D3 G3 B3 F4"}, {"F#dim7", "G2 Eb3 A3 C4 F#4"},
    {"C/G", "G2 E3 G3 C4 G4"}, {"G7", "G2 D3 G3 C4 F4"}, {"G7", "G2 D3 G3 B3 F4"}, {"C7", "C2 C3 G3 Bb3 E4"},
};

std::string melody_of(const BachBar& bar) {
  std::array<std::string, 5> n;
  std::istringstream words(bar.notes);
  for (std::string& note : n) words >> note;
  std::string half;
  for (const std::size_t i : {0U, 1U, 2U, 3U, 4U, 2U, 3U, 4U}) half += n.at(i) + ":1/4 ";
  return half + half;
}

AnalysedLine played(const std::vector<BachBar>& bars) {
  std::string melody;
  std::string chords;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    melody += melody_of(bars[i]);
    chords += bars[i].chord + '@' + std::to_string(4 * i) + ' ';
  }
  return analysed(chords, melody);
}

}  // namespace

TEST_CASE("BWV 846, bars 1 to 12: every note is a chord tone") {
  const AnalysedLine line = played(bars_1_to_12);
  CHECK(line.analysis.summary.chord_tone_share_strict == Share{192, 192});
  CHECK(line.analysis.summary.chord_tone_share == Share{192, 192});
  CHECK(line.analysis.summary.arpeggio_share == Share{192, 192});
  CHECK(line.analysis.summary.connections == 11);
}

TEST_CASE("BWV 846, bars 25 to 32: the fourths over G7 and the pedal under F#dim7 are foreign") {
  // C4 four times in bar 26 and again in bar 30, G2 twice in bar 28.
  const AnalysedLine line = played(bars_25_to_32);
  CHECK(line.analysis.summary.chord_tone_share_strict == Share{128 - 4 - 2 - 4, 128});
  const auto& row = line.analysis.outline.chords[1];  // bars 26 and 27, one G7
  CHECK(to_string(line.solo.notes[row.third.value()].pitch) == "B3");
  CHECK(line.solo.notes[row.third.value()].onset == insideline::Beats(4 * 2) + insideline::Beats(3, 4));
}

TEST_CASE("BWV 846, bars 1 to 12: one arpeggio a bar, named by its lowest note") {
  const AnalysedLine line = played(bars_1_to_12);
  REQUIRE(line.analysis.arpeggios.size() == 12);
  const auto [bar, inversion, spells, complete] = GENERATE(table<std::size_t, std::string, std::string, bool>({
      {1, "root position", "C", true},
      {2, "third inversion", "Dm7", true},
      {3, "first inversion", "G7", true},
      {4, "root position", "C", true},
      {5, "first inversion", "Am", true},
      {6, "third inversion", "D7", true},
      {7, "first inversion", "G", true},
      {8, "third inversion", "Cmaj7", true},
      {9, "root position", "Am7", true},
      {10, "root position", "D7", true},
      {11, "root position", "G", true},
      {12, "second inversion", "C#dim7", true},
  }));
  const auto& arpeggio = line.analysis.arpeggios[bar - 1];
  INFO("bar " << bar);
  CHECK(arpeggio.notes.size() == 16);
  CHECK(to_string(arpeggio.inversion) == inversion);
  CHECK(arpeggio.spells == spells);
  CHECK(arpeggio.complete == complete);
  // Each half of the bar goes up through five notes and again through the last three, which in bars 5 and 7 are
  // only two different ones: A E A and G D G.
  CHECK(arpeggio.legs.size() == (bar == 5 || bar == 7 ? 2U : 4U));
  for (const auto& leg : arpeggio.legs) CHECK(to_string(leg.direction) == "ascending");
  CHECK_FALSE(arpeggio.straight_descent);
}

TEST_CASE("BWV 846, the first five notes of bar 1 alone go straight up") {
  const AnalysedLine line = analysed("C@0", "C4:1/4 E4:1/4 G4:1/4 C5:1/4 E5:1/4");
  REQUIRE(line.analysis.arpeggios.size() == 1);
  CHECK(to_string(line.analysis.arpeggios.front().direction) == "ascending");
  CHECK(line.analysis.arpeggios.front().span_semitones == 16);
}

TEST_CASE("BWV 846, bars 1 to 4: the top voice E F F E moves by half steps and one kept tone") {
  const auto connections = analysed("C@0 Dm7/C@4 G7/B@8 C@12", "E5:4 F5:4 F5:4 E5:4").analysis.connections;
  REQUIRE(connections.size() == 3);
  CHECK(to_string(connections[0].kind) == "half step");
  CHECK_FALSE(connections[0].guide_tone);  // third to third
  CHECK(to_string(connections[1].kind) == "common tone");
  CHECK(connections[1].guide_tone);  // third to seventh
  CHECK(to_string(connections[2].kind) == "half step");
  CHECK(connections[2].semitones == -1);
  CHECK(connections[2].guide_tone);  // seventh to third
  for (const auto& connection : connections) CHECK(connection.took_nearest == true);
}
