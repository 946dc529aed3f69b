#include "analyzer/takes/take_time.hpp"

#include "tests/support/faulty_take.hpp"
#include "tests/support/melody.hpp"

#include <cmath>
#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::laid_take;
using insideline::LaidTake;
using insideline::pitches_of;
using insideline::Solo;
using insideline::take_time;
using insideline::TakeTime;

namespace {

/// 32 bars of eighths that never repeat.
Solo long_line() {
  static constexpr const char* names[] = {"C", "Eb", "D", "F", "G", "F#", "A", "Bb", "Ab", "B", "E"};
  std::string melody;
  for (std::size_t i = 0; i < 256; ++i)
    melody += names[(i * i / 3 + 5 * i) % 11] + std::string(i / 7 % 2 == 0 ? "4" : "5") + ":1/2 ";
  return insideline::tests::solo_from(melody);
}

TakeTime time_of(const Solo& sheet, const std::string& faults, const Beats& chorus = 64, unsigned seed = 1) {
  const Solo take = insideline::tests::faulty_take(sheet, faults, seed);
  const LaidTake laid = laid_take(sheet, take);
  return take_time(laid, insideline::align_take(pitches_of(sheet, laid.sheet_notes), pitches_of(take, laid.take_notes)),
                   chorus);
}

}  // namespace

TEST_CASE("beginning and end of the tempo are those that were played, to three in a hundred however uneven") {
  const Solo sheet = long_line();
  const auto [start, end] =
      GENERATE(table<double, double>({{60, 60}, {120, 120}, {240, 240}, {96, 128}, {128, 96}, {96, 77}, {118, 122}}));
  const auto [spread, near] = GENERATE(table<std::string, double>({{"5", 0.01}, {"15", 0.02}, {"25", 0.03}}));
  CAPTURE(start, end, spread);
  const TakeTime found =
      time_of(sheet, "tempo " + std::to_string(start) + " " + std::to_string(end) + "; uneven " + spread);
  REQUIRE(found.tempo);
  const double first_bar = start + (end - start) / 32.0;  // after one bar of 32, the middle of the first two
  const double last_bar = end - (end - start) / 32.0;
  CHECK(found.tempo->start_bpm == Approx(first_bar).epsilon(near));
  CHECK(found.tempo->end_bpm == Approx(last_bar).epsilon(near));
  REQUIRE(found.tempo->drift_a_chorus);
  CHECK(*found.tempo->drift_a_chorus == Approx((end - start) / 2.0).margin(0.02 * start));
  CHECK(found.tempo->drift_percent == Approx(100.0 * (end - start) / ((start + end) / 2.0)).margin(3.0));
  CHECK(found.tempo->jumps.empty());
  CHECK(found.breaks.empty());
}

TEST_CASE("a jump of the tempo is found in its bar, with both tempi, and a smaller one is none") {
  const Solo sheet = long_line();
  const auto [percent, found_it] =
      GENERATE(table<int, bool>({{20, true}, {12, true}, {-12, true}, {4, false}, {-4, false}}));
  CAPTURE(percent);
  const TakeTime found = time_of(sheet, "jump 17 " + std::to_string(percent) + "; uneven 8");
  REQUIRE(found.tempo);
  REQUIRE(found.tempo->jumps.size() == (found_it ? 1U : 0U));
  if (!found_it) return;
  CHECK((found.tempo->jumps[0].bar == "17" || found.tempo->jumps[0].bar == "16"));
  CHECK(found.tempo->jumps[0].from_bpm == Approx(120.0).epsilon(0.02));
  CHECK(found.tempo->jumps[0].to_bpm == Approx(120.0 * (1.0 + percent / 100.0)).epsilon(0.02));
}

TEST_CASE("how uneven the notes are is told apart from how they swing") {
  const Solo sheet = long_line();
  const double ratio = GENERATE(1.0, 1.3, 1.6, 2.0, 2.6);
  const int spread = GENERATE(5, 15, 30);
  CAPTURE(ratio, spread);
  const TakeTime found = time_of(sheet, "swing " + std::to_string(ratio) + "; uneven " + std::to_string(spread));
  REQUIRE(found.evenness);
  REQUIRE(found.evenness->swing_ratio);
  CHECK(*found.evenness->swing_ratio == Approx(ratio).epsilon(0.07));
  CHECK(found.evenness->spread_ms == Approx(spread).epsilon(0.25).margin(1.0));
  CHECK(found.hesitations.empty());
  CHECK(found.breaks.empty());
}

TEST_CASE("a beat lost or gained is a break, half a beat a hesitation") {
  const Solo sheet = long_line();
  const auto [quarters, breaks, hesitations] = GENERATE(table<std::string, std::size_t, std::size_t>(
      {{"0.1", 0, 0}, {"0.5", 0, 1}, {"1", 1, 0}, {"2.5", 1, 0}, {"12", 1, 0}}));
  CAPTURE(quarters);
  const TakeTime found = time_of(sheet, "stop 9 " + quarters);
  CHECK(found.breaks.size() == breaks);
  CHECK(found.hesitations.size() == hesitations);
  if (breaks == 1) CHECK(found.breaks[0].quarters == Approx(std::stod(quarters)).margin(0.1).epsilon(0.02));
  REQUIRE(found.tempo);
  CHECK(found.tempo->mean_bpm == Approx(120.0).epsilon(0.03));
  CHECK(found.tempo->jumps.empty());
}

TEST_CASE("an empty bar in a take on the grid is a break, at whatever tempo it was written") {
  const Solo sheet = long_line();
  Solo take = sheet;
  for (std::size_t i = 0; i < take.notes.size(); ++i) {
    take.notes[i].onset = take.notes[i].onset * Beats(2);
    if (i >= 100) take.notes[i].onset += Beats(8);
  }
  const LaidTake laid = laid_take(sheet, take);
  const std::vector<int> pitches = pitches_of(sheet, laid.sheet_notes);
  const TakeTime found = take_time(laid, insideline::align_take(pitches, pitches), 64);
  REQUIRE(found.breaks.size() == 1);
  CHECK(found.breaks[0].next == 100);
  CHECK(found.breaks[0].quarters == Approx(4.0));
  CHECK_FALSE(found.tempo);
}

TEST_CASE("a score has no times to judge") {
  const Solo sheet = long_line();
  const LaidTake laid = laid_take(sheet, sheet);
  const std::vector<int> pitches = pitches_of(sheet, laid.sheet_notes);
  const TakeTime found = take_time(laid, insideline::align_take(pitches, pitches), 64);
  CHECK_FALSE(found.tempo);
  CHECK_FALSE(found.evenness);
  CHECK(found.breaks.empty());
}
