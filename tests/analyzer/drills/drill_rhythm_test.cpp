#include "analyzer/drills/drill_rhythm.hpp"

#include "analyzer/alignment.hpp"
#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::Beats;
using insideline::Changes;
using insideline::DrillRhythm;
using insideline::DrillSegment;
using insideline::DrillSettings;
using insideline::Harmony;
using insideline::lay_out;
using insideline::Meter;
using insideline::segments_of;
using insideline::Slot;
using insideline::Solo;
using insideline::tests::chart;

namespace {

/// "0+1/2 1/2+1/2 | ...": onset and length of each place, segments parted by "|".
std::string places(const Changes& changes, const DrillSettings& settings, std::size_t wanted) {
  Solo solo;
  int number = 0;
  for (const auto& bar : changes.bars) solo.bars.push_back({++number, bar.onset, bar.length, *changes.meter});
  const Harmony harmony = lay_out(changes, solo);
  std::string text;
  for (const DrillSegment& segment :
       segments_of(solo, harmony, settings, std::vector<std::size_t>(harmony.chords.size(), wanted))) {
    if (!text.empty()) text += " |";
    for (const Slot& slot : segment.slots)
      text += (text.empty() ? "" : " ") + to_string(slot.onset) + "+" + to_string(slot.duration);
  }
  return text;
}

}  // namespace

TEST_CASE("a line fills the time of its chord and stops where the next begins") {
  auto [rhythm, bars, expected] = GENERATE(table<DrillRhythm, std::string, std::string>({
      {DrillRhythm::quarters, "C7", "0+1 1+1 2+1 3+1"},
      {DrillRhythm::quarters, "C7 F7", "0+1 1+1 | 2+1 3+1"},
      {DrillRhythm::eighths, "C7 F7", "0+1/2 1/2+1/2 1+1/2 3/2+1/2 | 2+1/2 5/2+1/2 3+1/2 7/2+1/2"},
      {DrillRhythm::off_beat, "C7 F7", "1/2+1/2 1+1/2 3/2+1/2 | 5/2+1/2 3+1/2 7/2+1/2"},
      {DrillRhythm::three_over_four, "C7 | F7",
       "0+1 1+1/2 3/2+1 5/2+1/2 3+1 | 4+1/2 9/2+1 11/2+1/2 6+1 7+1/2 15/2+1/2"},
  }));
  DrillSettings settings;
  settings.rhythm = rhythm;
  CHECK(places(chart(bars), settings, 0) == expected);
}

TEST_CASE("a figure takes as many places as it has tones, and a finer value where they do not fit") {
  auto [bars, wanted, expected] = GENERATE(table<std::string, std::size_t, std::string>({
      {"C7", 4, "0+1/2 1/2+1/2 1+1/2 3/2+1/2"},
      {"C7 F7 Bb7 Eb7", 4,
       "0+1/3 1/3+1/3 2/3+1/3 | 1+1/3 4/3+1/3 5/3+1/3 | 2+1/3 7/3+1/3 8/3+1/3 | 3+1/3 10/3+1/3 11/3+1/3"},
  }));
  CHECK(places(chart(bars), {}, wanted) == expected);
}

TEST_CASE("over a chord that goes on, a beat of rest parts one figure from the next") {
  DrillSettings settings;
  settings.rhythm = DrillRhythm::quarters;
  CHECK(places(chart("C7 | %"), settings, 4) == "0+1 1+1 2+1 | 4+1 5+1 6+1 7+1");
}

TEST_CASE("a limit of tones a bar gives every chord one and parts the rest on the beats") {
  auto [bars, tones, expected] = GENERATE(table<std::string, int, std::string>({
      {"C7", 2, "0+2 2+2"},
      {"C7", 3, "0+1 1+1 2+2"},
      {"C7 F7", 2, "0+2 | 2+2"},
      {"C7 F7", 1, "0+2 | 2+2"},
      {"C7 F7", 3, "0+1 1+1 | 2+2"},
  }));
  DrillSettings settings;
  settings.tones_a_bar = tones;
  CHECK(places(chart(bars), settings, 0) == expected);
}

TEST_CASE("in 6/8 the quarter of the sheet is the felt beat") {
  DrillSettings settings;
  settings.rhythm = DrillRhythm::quarters;
  CHECK(places(chart("C7", Meter{6, 8}), settings, 0) == "0+3/2 3/2+3/2");
}
