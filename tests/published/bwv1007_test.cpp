// J. S. Bach, Suite I for solo cello BWV 1007, Prelude, bars 1-4 (public domain): I, IV,
// V7, I over the tonic as pedal. All counts were made by hand.
#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Share;
using insideline::tests::analysed;
using insideline::tests::AnalysedLine;
using insideline::tests::in_lengths_of;

namespace {

const std::string bar_1 = "G2 D3 B3 A3 B3 D3 B3 D3 G2 D3 B3 A3 B3 D3 B3 D3 ";
const std::string bar_2 = "G2 E3 C4 B3 C4 E3 C4 E3 G2 E3 C4 B3 C4 E3 C4 E3 ";
const std::string bar_3 = "G2 F#3 C4 B3 C4 F#3 C4 F#3 G2 F#3 C4 B3 C4 F#3 C4 F#3 ";
const std::string bar_4 = "G2 G3 B3 A3 B3 G3 B3 G3 G2 G3 B3 A3 B3 G3 B3 F#3 ";

AnalysedLine prelude() { return analysed("G@0 C/G@4 D7@8 G@12", in_lengths_of("1/4", bar_1 + bar_2 + bar_3 + bar_4)); }

Share strict_in(const std::string& chord, const std::string& bar) {
  return analysed(chord + "@0", in_lengths_of("1/4", bar)).analysis.summary.chord_tone_share_strict;
}

}  // namespace

TEST_CASE("BWV 1007, bars 1 to 4: chord tones of each bar") {
  CHECK(strict_in("G", bar_1) == Share{14, 16});    // the neighbour A twice
  CHECK(strict_in("C/G", bar_2) == Share{14, 16});  // the neighbour B twice
  CHECK(strict_in("D7", bar_3) == Share{12, 16});   // the pedal G and the neighbour B, twice each
  CHECK(strict_in("G", bar_4) == Share{13, 16});    // the neighbour A twice, the last F#
  CHECK(prelude().analysis.summary.chord_tone_share_strict == Share{53, 64});
}

TEST_CASE("BWV 1007: the chords are told by their thirds, and by the seventh of D7") {
  const auto outline = prelude().analysis.outline;
  CHECK(outline.thirds == Share{4, 4});
  CHECK(outline.sevenths == Share{1, 1});
  CHECK(outline.chords[2].first_guide_tone == insideline::Beats(1, 4));  // F#, the second sixteenth
}

TEST_CASE("BWV 1007, bar 1: the broken chord between the neighbours is the root position of G") {
  // G D B (A) B D B D, twice: the A is the neighbour of B. Up G D B, down over the middle of the bar B D G, up again.
  const auto arpeggios = analysed("G@0", in_lengths_of("1/4", bar_1)).analysis.arpeggios;
  REQUIRE(arpeggios.size() == 1);
  CHECK(arpeggios[0].ornaments == std::vector<std::size_t>{3, 11});
  CHECK(arpeggios[0].notes.size() == 14);
  REQUIRE(arpeggios[0].legs.size() == 3);
  CHECK(to_string(arpeggios[0].legs[0].direction) == "ascending");
  CHECK(to_string(arpeggios[0].legs[1].direction) == "descending");
  CHECK(to_string(arpeggios[0].legs[2].direction) == "ascending");
  for (const auto& arpeggio : arpeggios) {
    CHECK(to_string(arpeggio.inversion) == "root position");
    CHECK(arpeggio.complete);
    CHECK(arpeggio.spells == "G");
  }
}
