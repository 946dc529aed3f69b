#include "analyzer/measures/rotation.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::ChangesRing;
using insideline::tests::AnalysedLine;

namespace {

ChangesRing ring_under(const AnalysedLine& line) {
  return insideline::ring_of(line.solo, line.analysis.harmony, line.heard);
}

/// A looping chart with a chord a bar under a solo of whole notes.
AnalysedLine over_a_form(const std::vector<std::string>& chords, int bars) {
  insideline::Changes changes;
  for (std::size_t bar = 0; bar < chords.size(); ++bar) {
    const Beats onset(static_cast<std::int64_t>(4 * bar));
    changes.bars.push_back({.onset = onset, .length = 4, .section = {}});
    changes.spans.push_back(
        {.chord = insideline::parse_chord_symbol(chords[bar]).value(), .onset = onset, .duration = 4});
  }
  std::string melody;
  for (int bar = 0; bar < bars; ++bar) melody += bar % 2 == 0 ? "C4:4 " : "A4:4 ";
  const auto solo = insideline::tests::solo_from(melody);
  return insideline::tests::analysed(solo, insideline::lay_out(changes, solo));
}

}  // namespace

TEST_CASE("the ring is one pass of the form where the solo plays it whole, and else the solo's bars") {
  const std::vector<std::string> form = {"C", "F", "G", "Am"};
  CHECK(ring_under(over_a_form(form, 8)).bars.size() == 4);
  CHECK(ring_under(over_a_form(form, 7)).bars.size() == 4);
  CHECK(ring_under(over_a_form(form, 3)).bars.size() == 3);
  CHECK(ring_under(insideline::tests::analysed("C@0 F@4", "C4:4 F4:4 A4:4")).bars.size() == 3);
}

TEST_CASE("the period is the smallest turn that gives the same changes") {
  const auto [chords, period] = GENERATE(table<std::vector<std::string>, std::size_t>({
      {{"C", "F", "C", "F"}, 2},
      {{"C", "C", "C", "C"}, 1},
      {{"C", "F", "C", "G"}, 4},
      {{"C6", "Am7", "C6", "Am7"}, 1},  // the same tones: no turn could tell them apart
      {{"C", "F", "G", "C", "F", "G"}, 3},
  }));
  CHECK(ring_under(over_a_form(chords, static_cast<int>(chords.size()))).period == period);
}

TEST_CASE("a bar of the ring keeps where its chords change, and where no chord sounds") {
  const auto ring = ring_under(insideline::tests::analysed("C@0 F@2 F@4 N.C.@6", "C4:8"));
  REQUIRE(ring.bars.size() == 2);
  REQUIRE(ring.bars[0].size() == 2);
  CHECK(ring.bars[0][1].offset == Beats(2));
  REQUIRE(ring.bars[1].size() == 2);
  CHECK(ring.bars[1][0].tones == ring.bars[0][1].tones);
  CHECK_FALSE(ring.bars[1][1].tones);
}

TEST_CASE("a pickup stays outside the ring") {
  const auto line = insideline::tests::analysed("C@0 F@5", "G4:1 C5:4 A4:4", {}, Beats(-1));
  const auto ring = ring_under(line);
  CHECK(ring.first_bar == 1);
  CHECK_FALSE(insideline::bar_under(ring, 0, 0));
  CHECK(insideline::bar_under(ring, 1, 0) == 0);
  CHECK(insideline::bar_under(ring, 2, 1) == 0);
}

TEST_CASE("playing on for another chorus does not change what is a turn") {
  const std::vector<std::string> form = {"C", "F", "G", "Am"};
  const auto once = over_a_form(form, 4).analysis.summary.chance;
  const auto twice = over_a_form(form, 8).analysis.summary.chance;
  CHECK(once.shifts == twice.shifts);
  REQUIRE(once.values.size() == twice.values.size());
  for (std::size_t i = 0; i < once.values.size(); ++i) CHECK(once.values[i] == Approx(twice.values[i]));
}
