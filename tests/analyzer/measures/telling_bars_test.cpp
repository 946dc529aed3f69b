#include "analyzer/measures/telling_bars.hpp"

#include "tests/support/analysed.hpp"

#include <algorithm>
#include <set>
#include <string>

#include <catch2/catch.hpp>

using insideline::TellingBar;
using insideline::tests::analysed;

TEST_CASE("a telling bar says in a sentence what happens there") {
  const auto [chords, melody, bar, why] = GENERATE(table<std::string, std::string, int, std::string>({
      {"G7@0 Cmaj7@4", "G4:2 F4:2 E4:4", 2,
       "F, the seventh of G7, falls a half step to E, the third of Cmaj7, just as the chord arrives"},
      {"C@0 Dm7@4", "C4:4 D4:1 F4:1 A4:1 C5:1", 2, "spells Dm7 in full with four notes, going up, from the root"},
      {"C7@0", "Bb4:1 G4:1 E4:2", 1, "comes straight down through C7 from the seventh"},
      {"Cmaj7@0", "E4:1 G4:1 B4:1 D5:1", 1, "plays Em7 over Cmaj7: its third, fifth, seventh and ninth"},
      {"D7b9@0", "F#4:1 Eb4:1 C4:1 A3:1", 1, "comes straight down through D7b9 from the third"},
      {"A7b9@0", "E4:1 G4:1 Bb4:1 C#4:1", 1, "plays C#dim7 over A7b9: its fifth, seventh, flat ninth and third"},
      {"Dm7@0", "D5:1/2 A4:1/2 F4:1/2 A4:1/2 Eb4:1/2 Gb4:1/2 Bb4:1/2 Db5:1/2 A4:4", 1,
       "slips outside: Eb to Db play Ebm7, a half step above Dm7"},
      {"Cmaj7@0", "C4:1/2 E4:1/2 D4:1/2 F4:1/2 E4:1/2 G4:1/2 F4:1/2 A4:1/2", 1,
       "a scale in thirds goes up here: four of them"},
      {"G7@0", "G4:1/2 Db5:1/2 F5:1/2 Ab5:1/2 G5:2", 1, "plays Db7, the tritone substitute of G7"},
      {"Eb7@0",
       "r:1 C5:1/2 Bb4:1 F4:1/2 C4:1/2 r:1/2 r:1 D5:1/2 C5:1 G4:1/2 D4:1/2 r:1/2 "
       "r:1 C5:1/2 Bb4:1 F4:1/2 C4:1/2 r:1/2",
       1, "a riff of four notes comes here first of three times"},
      {"Dm7@0", "G4:1 E4:1 C#4:1 D4:1", 1, "comes straight down through C#dim, played over Dm7"},
      {"D@0", "A4:1/2 F#4:1/2 D5:1/2 F#5:1/2 D5:1/2 A4:1/2", 1,
       "turns, then comes straight down through D from the third"},
      {"C7@0", "Bb4:1/2 G4:1/2 E4:1/2 G4:1/2 Bb4:1/2", 1,
       "comes straight down through C7 from the seventh, and goes up again"},
      {"Gm6@0", "D6:1/2 E6:1/2 D6:1/2 Bb5:1/2 G5:1", 1, "comes straight down through Gm6 from the fifth"},
      {"F7@0", "B4:1/2 D#5:1/2 F#5:1/2 B5:1/2 A5:1", 1, "plays B7, the tritone substitute of F7"},
      {"Gm7@0", "B5:1/2 G#5:1/2 Bb5:1/2 G5:1/2 A5:1/2 F#5:1/2 Ab5:1/2 F5:1/2 G5:1/2 E5:1/2", 1,
       "minor thirds go down in half steps here: five of them"},
      {"Cmaj7@0", "C4:1 G4:1 F4:1/2 D#4:1/2 E4:1", 1, "F and D# close in on E, the third of Cmaj7"},
  }));
  const auto bars = analysed(chords, melody).analysis.telling_bars;
  REQUIRE_FALSE(bars.empty());
  CHECK(bars.front().bar == bar);
  CHECK(bars.front().why == why);
}

TEST_CASE("a call is told with the bar of its answer") {
  const auto bars = analysed("Eb7@0", "r:1 C5:1/2 Bb4:1 F4:1/2 C4:1/2 r:1/2 r:1 D5:1/2 C5:1 Ab4:1/2 F4:1/2 r:1/2")
                        .analysis.telling_bars;
  const auto call = std::ranges::find(bars, 1, &TellingBar::bar);
  REQUIRE(call != bars.end());
  CHECK(call->why == "a call of four notes, which bar 2 answers in the same rhythm");
}

TEST_CASE("there are at most three telling bars, all different") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const auto random = insideline::tests::random_line(seed, 24);
    const auto bars = insideline::tests::analysed(random.solo, random.harmony).analysis.telling_bars;
    CHECK(bars.size() <= 3);
    std::set<int> numbers;
    for (const TellingBar& bar : bars) {
      numbers.insert(bar.bar);
      CHECK(bar.first_note <= bar.last_note);
      CHECK_FALSE(bar.why.empty());
    }
    CHECK(numbers.size() == bars.size());
  }
}

TEST_CASE("different reasons come first") {
  const auto bars =
      analysed("G7@0 C@4 G7@8 C@12", "B4:2 F4:2 E4:4 B4:2 F4:2 E4:1 C4:1 E4:1 G4:1").analysis.telling_bars;
  REQUIRE(bars.size() == 2);
  CHECK(bars[0].bar == 2);
  CHECK(bars[1].bar == 4);
}

TEST_CASE("one of each kind comes before a second of the same: a shape, a crossing, a shape that returns") {
  const auto bars =
      analysed("Dm7@0 G7@4 Cmaj7@8 Dm7@12",
               "D4:1/2 F4:1/2 A4:1/2 C5:1/2 r:2 D5:1/2 B4:1/2 G4:1/2 F4:5/2 E4:1/2 G4:1/2 B4:1/2 D5:1/2 r:2 "
               "C5:1/2 A4:1/2 F4:1/2 D4:1/2 r:2")
          .analysis.telling_bars;
  REQUIRE(bars.size() == 3);
  int shapes = 0;
  int crossings = 0;
  for (const TellingBar& bar : bars) {
    if (bar.why.find("step to") != std::string::npos) ++crossings;
    if (bar.why.find("straight down") != std::string::npos || bar.why.find("in full") != std::string::npos ||
        bar.why.find("plays") != std::string::npos)
      ++shapes;
  }
  CHECK(crossings == 1);
  CHECK(shapes == 2);
  const auto returning = analysed("G7@0 C7@4 F7@8",
                                  "B3:1/2 D4:1/2 F4:1/2 r:5/2 E4:1/2 G4:1/2 Bb4:1/2 r:5/2 "
                                  "A3:1/2 C4:1/2 Eb4:1/2 r:5/2")
                             .analysis.telling_bars;
  REQUIRE_FALSE(returning.empty());
  CHECK(returning.front().why == "the shape 3-5-b7 comes here first of three times");
}

TEST_CASE("where nothing tells, nothing is told") { CHECK(analysed("C@0", "C4:4 D4:4").analysis.telling_bars.empty()); }

TEST_CASE("a reason that was told waits until every other reason is told") {
  // Three sevenths fall to thirds, and bar 1 spells its chord in full: that comes before the second and third fall.
  const auto bars = analysed("G7@0 C@4 G7@8 C@12 G7@16 C@20", "G4:1 B4:1 D5:1 F5:1 E5:4 B4:2 F5:2 E5:4 B4:2 F5:2 E5:4")
                        .analysis.telling_bars;
  REQUIRE(bars.size() == 3);
  CHECK(bars[0].bar == 2);
  CHECK(bars[1].bar == 1);
  CHECK(bars[2].bar == 4);
}

TEST_CASE("numbers up to ten are told in words, and so are the tones with their accidentals") {
  const auto [chords, melody, why] = GENERATE(table<std::string, std::string, std::string>({
      {"C7@0", "Bb3:1/2 C4:1/2 E4:1/2 G4:1/2 Bb4:1/2 C5:1/2 E5:1/2 G5:1/2 Bb5:1/2 C6:1/2",
       "spells C7 in full with ten notes, going up, from the seventh"},
      {"C7@0", "Bb3:1/2 C4:1/2 E4:1/2 G4:1/2 Bb4:1/2 C5:1/2 E5:1/2 G5:1/2 Bb5:1/2 C6:1/2 E6:1/2",
       "spells C7 in full with 11 notes, going up, from the seventh"},
      {"Cm7b5@0", "Gb4:1 Bb4:1 C5:1 Eb5:1", "spells Cm7b5 in full with four notes, going up, from the flat fifth"},
      {"C7@0", "E4:1 Bb4:1 G4:1 C5:1", "spells C7 in full with four notes, from the third"},
  }));
  const auto bars = analysed(chords, melody).analysis.telling_bars;
  REQUIRE_FALSE(bars.empty());
  CHECK(bars.front().why == why);
}

TEST_CASE("a chord tone and a note from the other side are no two notes that close in") {
  for (const TellingBar& bar : analysed("Cmaj7@0", "G4:1 C5:1/2 A#4:1/2 B4:2").analysis.telling_bars)
    CHECK(bar.why.find("close in") == std::string::npos);
}
