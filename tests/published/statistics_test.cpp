// Chance levels and intervals against values found elsewhere. P-values and intervals were
// recomputed with R 4.2.2: mean(c(shifted >= real, TRUE)), prop.test(x, n, correct = FALSE).
// The worked example of two proportions: Newcombe, Statistics in Medicine 17 (1998) 873-890.
#include "analyzer/measures/chance.hpp"
#include "analyzer/measures/proportion.hpp"
#include "tests/support/analysed.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Chance;
using insideline::Share;
using insideline::tests::analysed;

// The flags 10101010 against themselves, shifted round by 0 to 7, meet 4 0 4 0 4 0 4 0 times.
// Counting all eight alignments gives 4/8 for a perfect pattern, whatever its length: only
// two of them differ, so one turn is left to try.
TEST_CASE("a pattern that comes round again is not held against itself") {
  std::string chords;
  std::string melody;
  for (int bar = 0; bar < 8; ++bar) {
    chords += (bar % 2 == 0 ? "C@" : "F#@") + std::to_string(4 * bar) + ' ';
    melody += bar % 2 == 0 ? "E4:4 " : "F4:4 ";
  }
  const Chance chance = analysed(chords, melody).analysis.summary.chance;  // F fits neither chord
  CHECK(chance.shifts == 1);
  CHECK(chance.actual == Approx(4.0 / 8));
  CHECK(chance.values == std::vector<double>{0.0});
  CHECK(chance.p_value.value() == Approx(1.0 / 2));
}

TEST_CASE("32 turns cannot give a p-value below 1/33") {
  std::vector<Share> shifted(32, {.count = 10, .of = 100});
  CHECK(insideline::against_shifts({.count = 90, .of = 100}, shifted).p_value.value() == Approx(1.0 / 33));
}

TEST_CASE("a p-value counts the shifts that do as well, and the real alignment once") {
  std::vector<Share> shifted;
  for (const int count : {41, 55, 62, 48, 62, 70, 39}) shifted.push_back({.count = count, .of = 100});
  // R: s <- c(41, 55, 62, 48, 62, 70, 39); (sum(s >= 62) + 1) / (length(s) + 1) is 0.5, mean(s) is 53.85714
  const Chance chance = insideline::against_shifts({.count = 62, .of = 100}, shifted);
  CHECK(chance.p_value.value() == Approx(0.5));
  CHECK(chance.mean.value() == Approx(0.5385714));
}

TEST_CASE("a line that is the same all through has no spread and divides by nothing") {
  const Chance chance = analysed("C@0 F@4 C@8 F@12", "C4:4 C4:4 C4:4 C4:4").analysis.summary.chance;
  CHECK(chance.actual == Approx(1.0));
  CHECK(chance.mean.value() == Approx(1.0));
  CHECK(chance.p_value.value() == Approx(1.0));
}

TEST_CASE("56 of 70 against 48 of 80") {
  const auto interval = insideline::newcombe_interval({.count = 56, .of = 70}, {.count = 48, .of = 80});
  REQUIRE(interval);
  CHECK(interval->low == Approx(0.05243147).margin(1e-7));
  CHECK(interval->high == Approx(0.3338727).margin(1e-7));
}

// The chance level of a scale: seven notes against four chord tones, 4 of 7.
TEST_CASE("the seven notes of the scale, each once, meet four tones of a seventh chord") {
  const auto [chord, notes] = GENERATE(table<std::string, std::string>(
      {{"Cmaj7", "C4 D4 E4 F4 G4 A4 B4"}, {"Dm7", "D4 E4 F4 G4 A4 B4 C5"}, {"G7", "G4 A4 B4 C5 D5 E5 F5"}}));
  CHECK(
      analysed(chord + "@0", insideline::tests::in_lengths_of("1/2", notes)).analysis.summary.chord_tone_share_strict ==
      Share{4, 7});
}
