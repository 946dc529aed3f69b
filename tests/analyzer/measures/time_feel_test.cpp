#include "analyzer/measures/time_feel.hpp"

#include "tests/support/human_timing.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using insideline::Solo;
using insideline::time_feel;
using insideline::tests::solo_from;
using insideline::tests::Take;

namespace {

const std::string eighths =
    "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1/2 C5:1/2 B4:1/2 A4:1/2 G4:1/2 F4:1/2 E4:1 C4:1 ";

Solo performed(const std::string& melody, const Take& take) {
  Solo solo = solo_from(melody);
  const double quarter = 60.0 / take.tempo_bpm;
  for (const auto& note : insideline::tests::played(solo, take))
    solo.performed.push_back({note.onset_seconds, note.end_seconds - note.onset_seconds,
                              (note.onset_seconds - insideline::tests::lead_seconds) / quarter, quarter});
  return solo;
}

}  // namespace

TEST_CASE("a score has no time feel") { CHECK_FALSE(time_feel(solo_from("C4:4"))); }

TEST_CASE("the swing ratio is long to short, of pairs that run on to the next beat") {
  const double ratio = GENERATE(1.0, 1.3, 2.0, 3.0);
  const auto feel = time_feel(performed(eighths, {120.0, ratio, 0.0, 0.0, 1}));
  REQUIRE(feel);
  REQUIRE(feel->swing);
  CHECK(feel->swing->pairs == 6);
  CHECK(feel->swing->ratio == Approx(ratio));
  CHECK(feel->swing->lower == Approx(ratio));
}

TEST_CASE("quarter notes, triplets and a lone off-beat tell no swing") {
  CHECK_FALSE(time_feel(performed("C4:1 D4:1 E4:1 F4:1", {120.0, 2.0, 0.0, 0.0, 1}))->swing);
  CHECK_FALSE(time_feel(performed("C4:1/3 D4:1/3 E4:1/3 F4:1 r:1/2 G4:1/2 r:1", {120.0, 2.0, 0.0, 0.0, 1}))->swing);
}

TEST_CASE("30 ms behind the beat at 150 is 7.5 percent of it") {
  const auto feel = time_feel(performed(eighths, {150.0, 1.5, 0.0, 0.030, 1}));
  REQUIRE(feel);
  CHECK(feel->on_beat.notes == 8);
  CHECK(feel->on_beat.mean_ms == Approx(30.0));
  CHECK(feel->on_beat.mean_percent == Approx(7.5));
  CHECK(feel->on_beat.spread_ms == Approx(0.0).margin(1e-6));
  REQUIRE(feel->off_beat);
  CHECK(feel->off_beat->notes == 6);
  CHECK(feel->off_beat->mean_ms == Approx(30.0));
}

TEST_CASE("each beat of the bar has its own lateness") {
  Solo solo = performed("C4:1 D4:1 E4:1 F4:1 C4:1 D4:1 E4:1 F4:1", {120.0, 1.0, 0.0, 0.0, 1});
  for (std::size_t i : {1U, 5U}) solo.performed[i].onset_beats += 0.04;  // 20 ms late on two
  solo.performed[3].onset_beats -= 0.02;                                 // 10 ms early on four, once
  const auto feel = time_feel(solo);
  REQUIRE(feel);
  REQUIRE(feel->by_beat.size() == 4);
  CHECK(feel->by_beat[0].lateness.mean_ms == Approx(0.0).margin(1e-6));
  CHECK(feel->by_beat[1].beat == 2);
  CHECK(feel->by_beat[1].lateness.mean_ms == Approx(20.0));
  CHECK(feel->by_beat[3].lateness.mean_ms == Approx(-5.0));
  CHECK(feel->by_beat[3].lateness.spread_ms == Approx(10.0 / std::sqrt(2.0)));
  CHECK(feel->on_beat.notes == 8);
}

TEST_CASE("the spread of a player is found again") {
  std::string melody;
  for (int i = 0; i < 40; ++i) melody += eighths;
  const auto feel = time_feel(performed(melody, {100.0, 1.5, 0.012, 0.0, 9}));
  REQUIRE(feel);
  CHECK(feel->on_beat.spread_ms == Approx(12.0).margin(1.0));
  CHECK(feel->on_beat.mean_ms == Approx(0.0).margin(2.0));
  CHECK(feel->swing->ratio == Approx(1.5).margin(0.05));
}

TEST_CASE("moving a performance by whole bars changes nothing") {
  const Solo first = performed(eighths, {130.0, 1.7, 0.01, 0.0, 2});
  Solo moved = first;
  for (auto& bar : moved.bars) bar.onset += 8;
  for (auto& note : moved.notes) note.onset += 8;
  for (auto& note : moved.performed) note.onset_beats += 8.0;
  CHECK(time_feel(moved)->on_beat.mean_ms == Approx(time_feel(first)->on_beat.mean_ms));
  CHECK(time_feel(moved)->swing->ratio == Approx(time_feel(first)->swing->ratio));
}
