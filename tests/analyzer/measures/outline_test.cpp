#include "analyzer/measures/outline.hpp"

#include "tests/support/analysed.hpp"

#include <optional>
#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Share;
using insideline::tests::analysed;

TEST_CASE("the outline tells which chords get their third and seventh, and how soon") {
  const auto outline =
      analysed("Dm7@0 G7@4 C6@8 Fsus4@12", "D4:1 F4:1 C5:2 D5:3 B4:1 C5:2 A4:2 Bb4:4").analysis.outline;
  REQUIRE(outline.chords.size() == 4);
  CHECK(outline.chords[0].third == 1);
  CHECK(outline.chords[0].seventh == 2);
  CHECK(outline.chords[0].first_guide_tone == Beats(1));
  CHECK(outline.chords[1].third == 4);
  CHECK_FALSE(outline.chords[1].seventh);
  CHECK(outline.chords[1].first_guide_tone == Beats(3));
  CHECK(outline.chords[2].seventh == 6);     // the sixth stands for it
  CHECK_FALSE(outline.chords[3].has_third);  // its fourth is none
  CHECK_FALSE(outline.chords[3].has_seventh);
  CHECK(outline.thirds == Share{2, 3});
  CHECK(outline.sevenths == Share{2, 3});
  CHECK(outline.both == Share{1, 3});
  CHECK(outline.usual_first_guide_tone == Beats(2));
}

TEST_CASE("a chord without a note is in the list and not in the shares") {
  const auto outline = analysed("C@0 F@4 C@8", "E4:4 r:4 E4:4").analysis.outline;
  REQUIRE(outline.chords.size() == 3);
  CHECK(outline.chords[1].notes == 0);
  CHECK(outline.thirds == Share{2, 2});
}

TEST_CASE("a guide tone pushed ahead comes before its chord") {
  const auto outline = analysed("Dm7@0 G7@4", "D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 F4:1/2 C5:1/2 B4:1/2 B4~:1 D5:1 F5:2")
                           .analysis.outline;
  CHECK(outline.chords[1].first_guide_tone == Beats(-1, 2));
}

TEST_CASE("the first third and the first seventh of a chord are the ones that are kept") {
  const auto outline = analysed("G7@0", "F4:1 B4:1 F5:1 B5:1").analysis.outline;
  REQUIRE(outline.chords.size() == 1);
  CHECK(outline.chords[0].notes == 4);
  CHECK(outline.chords[0].third == 1);
  CHECK(outline.chords[0].seventh == 0);
  CHECK(outline.chords[0].first_guide_tone == Beats(0));
  CHECK(outline.both == Share{1, 1});
}

TEST_CASE("the usual moment of the first guide tone is the one in the middle, of two the earlier") {
  const auto [chords, melody, moment] = GENERATE(table<std::string, std::string, std::optional<Beats>>({
      {"C@0 F@4 C@8", "E4:4 C4:3 A4:1 C4:2 E4:2", Beats(2)},                 // 0, 3 and 2
      {"C@0 F@4 C@8 F@12", "E4:4 C4:3 A4:1 C4:2 E4:2 F4:1 A4:3", Beats(1)},  // and 1
      {"C@0 F@4", "C4:4 C4:1 A4:3", Beats(1)},                               // C gets none
      {"C@0 F@4", "C4:4 C4:4", std::nullopt},
  }));
  CHECK(analysed(chords, melody).analysis.outline.usual_first_guide_tone == moment);
}
