#include "analyzer/labels/joint.hpp"

#include "analyzer/phrases.hpp"
#include "tests/support/melody.hpp"

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Chain;
using insideline::Motive;
using insideline::Reading;
using insideline::Row;

namespace {

Chain only_chain(const std::string& chords, const std::string& melody) {
  const insideline::Solo solo = insideline::tests::solo_from(melody);
  const insideline::Harmony harmony = insideline::tests::harmony_from(chords, solo);
  Chain found;
  insideline::for_each_chain(solo, harmony, insideline::find_phrases(solo, harmony), {},
                             [&](const Chain& chain) { found = chain; });
  return found;
}

constexpr Reading tone{.motive = Motive::chord_tone};
constexpr Reading tension{.motive = Motive::tension};
constexpr Reading passing{.motive = Motive::passing};
constexpr Reading approach{.motive = Motive::approach};

}  // namespace

TEST_CASE("two passing tones in a row are told once, and nothing is said of what follows a chord tone") {
  const Chain chain = only_chain("C@0", "G4:1/2 F#4:1/2 F4:1/2 E4:1");
  CHECK(rows_between(passing, passing, chain, 2) == std::vector{Row::second_passing});
  CHECK(rows_between(approach, passing, chain, 2) == std::vector{Row::leads_to_motion});
  CHECK(rows_between(approach, tension, chain, 2) == std::vector{Row::lands_on_tension});
  CHECK(rows_between(tone, passing, chain, 2).empty());
}

TEST_CASE("tensions stand beside each other by leap, not by step") {
  CHECK(rows_between(tension, tension, only_chain("C@0", "A4:1 D5:1"), 1) == std::vector{Row::tension_beside_tension});
  CHECK(rows_between(tension, tension, only_chain("C7@0", "Ab4:1 Bb4:1"), 1).empty());
}

TEST_CASE("a reading weighs after another what its rows are worth, and nothing where it cannot follow") {
  const Chain chain = only_chain("C@0", "G4:1/2 F#4:1/2 F4:1/2 E4:1");
  const Reading second_half{.motive = Motive::enclosure, .part = 1, .parts = 2};
  const std::array<Reading, 2> from = {tone, passing};
  const std::array<Reading, 2> to = {passing, second_half};
  std::array<double, 4> pairs{};
  insideline::Joint(chain, 2).weigh(from, to, pairs.data());
  CHECK(pairs[0] == 1.0);
  CHECK(pairs[1] == Approx(std::exp(insideline::score_value(Row::second_passing) / insideline::per_log_unit)));
  CHECK(pairs[2] == 0.0);
  CHECK(pairs[3] == 0.0);
  const std::array<Reading, 1> first_half = {Reading{.motive = Motive::enclosure, .part = 0, .parts = 2}};
  const std::array<Reading, 2> something_else = {passing, tone};
  std::array<double, 2> broken_off{1.0, 1.0};
  insideline::Joint(chain, 2).weigh(first_half, something_else, broken_off.data());
  CHECK(broken_off == std::array{0.0, 0.0});
}
