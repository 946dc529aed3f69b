// W. A. Mozart, Sonata in C major K. 545, first movement, bars 1-5 (public domain).
// All counts were made by hand.
#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Share;
using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

TEST_CASE("K. 545, bar 1: the tune goes up the chord of C in root position") {
  const auto analysis = analysed("C@0", "C5:2 E5:1 G5:1").analysis;
  CHECK(analysis.summary.chord_tone_share_strict == Share{3, 3});
  REQUIRE(analysis.arpeggios.size() == 1);
  CHECK(to_string(analysis.arpeggios.front().direction) == "ascending");
  CHECK(to_string(analysis.arpeggios.front().inversion) == "root position");
  CHECK(analysis.arpeggios.front().complete);
}

TEST_CASE("K. 545, bars 2 and 3: one passing note, then chord tones only") {
  const auto bar_2 = analysed("G7/D@0 C@2", "B4:3/2 C5:1/4 D5:1/4 C5:1 r:1").analysis;
  CHECK(bar_2.summary.chord_tone_share_strict == Share{3, 4});
  REQUIRE(bar_2.connections.size() == 1);
  CHECK(to_string(bar_2.connections.front().kind) == "whole step");  // D to C
  CHECK(analysed("F/C@0 C@2", "A5:2 G5:1 C6:1").analysis.summary.chord_tone_share_strict == Share{3, 3});
}

TEST_CASE("K. 545, bar 5: the scale over F has chord tones on two of its four beats") {
  const std::string scale =
      "A4:1/2 B4:1/4 C5:1/4 D5:1/4 E5:1/4 F5:1/4 G5:1/4 A5:1/4 "
      "G5:1/4 F5:1/4 E5:1/4 D5:1/4 C5:1/4 B4:1/4 A4:1/4";
  const auto analysis = analysed("F@0", scale).analysis;
  CHECK(analysis.densities.all.strict == Share{7, 15});
  CHECK(analysis.densities.on_beat.strict == Share{2, 4});
  CHECK(analysis.densities.off_beat.strict == Share{5, 11});
  CHECK(analysis.arpeggios.empty());
}

TEST_CASE("K. 545, bars 5 to 8: the scales are a sequence, a bar long and each a step lower, and no riff") {
  const auto patterns = analysed("F@0 C@4 Dm@8 Am@12",
                                 "A4:1/2 B4:1/4 C5:1/4 D5:1/4 E5:1/4 F5:1/4 G5:1/4 A5:1/4 "
                                 "G5:1/4 F5:1/4 E5:1/4 D5:1/4 C5:1/4 B4:1/4 A4:1/4 | "
                                 "G4:1/2 A4:1/4 B4:1/4 C5:1/4 D5:1/4 E5:1/4 F5:1/4 G5:1/4 "
                                 "F5:1/4 E5:1/4 D5:1/4 C5:1/4 B4:1/4 A4:1/4 G4:1/4 | "
                                 "F4:1/2 G4:1/4 A4:1/4 B4:1/4 C5:1/4 D5:1/4 E5:1/4 F5:1/4 "
                                 "E5:1/4 D5:1/4 C5:1/4 B4:1/4 A4:1/4 G4:1/4 F4:1/4 | "
                                 "E4:1/2 F4:1/4 G4:1/4 A4:1/4 B4:1/4 C5:1/4 D5:1/4 E5:1/4 "
                                 "D5:1/4 C5:1/4 B4:1/4 A4:1/4 G4:1/4 F4:1/4 E4:1/4 | D4:1/2")
                            .analysis.patterns;
  CHECK(patterns.riffs.empty());
  REQUIRE(patterns.sequences.size() == 1);
  CHECK(patterns.sequences.front().notes == 15);
  CHECK(patterns.sequences.front().times == 4);
  CHECK_FALSE(patterns.sequences.front().up);
}

TEST_CASE("K. 545, the left hand: every note is a chord tone, and each chord an arpeggio") {
  const auto [chords, notes, inversions] = GENERATE(table<std::string, std::string, std::string>({
      {"C@0", "C4 G4 E4 G4 C4 G4 E4 G4", "root position "},
      {"G7/D@0 C@2", "D4 G4 F4 G4 C4 G4 E4 G4", "second inversion root position "},
      {"F/C@0 C@2", "C4 A4 F4 A4 C4 G4 E4 G4", "second inversion root position "},
  }));
  const auto analysis = analysed(chords, in_lengths_of("1/2", notes)).analysis;
  CHECK(analysis.summary.chord_tone_share_strict == Share{8, 8});
  CHECK(analysis.summary.arpeggio_share == Share{8, 8});
  std::string found;
  for (const auto& arpeggio : analysis.arpeggios) found += to_string(arpeggio.inversion) + ' ';
  CHECK(found == inversions);
}
