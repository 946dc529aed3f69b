#include "analyzer/drills/habits.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using insideline::Analysis;
using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::Gap;
using insideline::gaps_of;
using insideline::Habits;
using insideline::Inversion;
using insideline::is_long_enough;
using insideline::take_habits;
using insideline::UsualShare;
using insideline::Way;
using insideline::tests::analysed;

namespace {

const Gap* gap_with(const std::vector<Gap>& gaps, const std::string& words) {
  const auto found =
      std::ranges::find_if(gaps, [&](const Gap& gap) { return gap.sentence.find(words) != std::string::npos; });
  return found == gaps.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a solo that only goes up lacks the way down") {
  const Analysis analysis =
      analysed("C7@0 F7@4", "C4:1/2 E4:1/2 G4:1/2 Bb4:1/2 r:2 F4:1/2 A4:1/2 C5:1/2 Eb5:1/2 r:2").analysis;
  const auto gaps = gaps_of(analysis, {});
  REQUIRE_FALSE(gaps.empty());
  CHECK(gaps.front().sentence == "No arpeggio comes down (2 go up).");
  CHECK(gaps.front().drill.kind == DrillKind::arpeggios);
  CHECK(gaps.front().drill.way == Way::down);
}

TEST_CASE("a solo that never comes down from the seventh is given that") {
  const Analysis analysis =
      analysed("C7@0 F7@4", "C5:1/2 Bb4:1/2 G4:1/2 E4:1/2 r:2 F5:1/2 Eb5:1/2 C5:1/2 A4:1/2 r:2").analysis;
  const auto gaps = gaps_of(analysis, {});
  const Gap* gap = gap_with(gaps, "descents starts from the seventh");
  REQUIRE(gap != nullptr);
  CHECK(gap->sentence == "None of 2 descents starts from the seventh.");
  CHECK(gap->drill.from_tone == 7);
  CHECK(gap->drill.way == Way::down);
  CHECK(gap_with(gaps, "comes down") == nullptr);
}

TEST_CASE("inversions that never come are named") {
  const Analysis analysis = analysed("C7@0 F7@4", "C4:1 G4:1 Bb4:1 C5:1 F4:1 C5:1 Eb5:1 F5:1").analysis;
  const auto gaps = gaps_of(analysis, {});
  const Gap* inversion = gap_with(gaps, "first inversion");
  REQUIRE(inversion != nullptr);
  CHECK(inversion->drill.inversion == Inversion::first);
}

TEST_CASE("a share far below what is usual is told with its interval and where the usual one comes from") {
  Analysis analysis;
  analysis.summary.guide_tone_resolutions = {3, 24};
  analysis.summary.thirds_given = {9, 24};
  const std::vector<UsualShare> usual{{"guide_tone_resolutions", 0.46, "the median of 12 solos in term.db"},
                                      {"thirds_given", 0.5, "the median of 12 solos in term.db"}};
  const auto gaps = gaps_of(analysis, {}, usual);
  const Gap* gap = gap_with(gaps, "guide tone");
  REQUIRE(gap != nullptr);
  CHECK(
      gap->sentence ==
      "3 of 24 connections lead or keep a guide tone (13 %, surely under 31 %); usual is 46 %, the median of 12 solos "
      "in term.db.");
  CHECK(gap->exercise == "a guide-tone line");
  CHECK(gap->drill.kind == DrillKind::guide_tones);
  CHECK(gap_with(gaps, "get their third") == nullptr);  // 38 % of 24 may well be 50
}

TEST_CASE("a solo that keeps no common tone is given a line that does, and one that keeps one is not") {
  const auto [melody, told] = GENERATE(table<std::string, bool>({
      {"C4:1 E4:1 G4:1 B4:1 A4:1 C5:1 E5:1 C5:1", true},
      {"C4:1 G4:1 E4:1 C4:1 C4:1 A4:1 E4:1 C4:1", false},
  }));
  const Gap* gap = nullptr;
  const auto gaps = gaps_of(analysed("Cmaj7@0 Am7@4", melody).analysis, {});
  gap = gap_with(gaps, "common tone");
  CHECK((gap != nullptr) == told);
  if (gap == nullptr) return;
  CHECK(gap->sentence == "No common tone is kept at any of 1 changes.");
  CHECK(gap->drill.kind == DrillKind::common_tones);
}

TEST_CASE("a gap is told from the first chord on that lacks it, and not where there is none") {
  const auto [chords, melody, words, told] = GENERATE(table<std::string, std::string, std::string, bool>({
      {"C7@0", "C4:1 E4:1 G4:1 Bb4:1", "descents", false},
      {"C7@0", "Bb4:1 G4:1 E4:1 C4:1", "seventh", false},
      {"C7@0", "C5:1 G4:1 E4:1 C4:1", "seventh", true},
  }));
  INFO(melody);
  const auto gaps = gaps_of(analysed(chords, melody).analysis, {});
  CHECK((gap_with(gaps, words) != nullptr) == told);
}

TEST_CASE("two notes say nothing about what a player lacks") {
  CHECK_FALSE(is_long_enough(analysed("C7@0", "C4:1 E4:1").analysis));
}

TEST_CASE("habits are the solo's own cells, the most frequent first, with their direction") {
  DrillSettings settings;
  const Analysis analysis = analysed("C7@0 F7@4", "Bb4:1/2 E5:1/2 G5:1/2 r:5/2 Eb4:1/2 A4:1/2 C5:1/2 r:5/2").analysis;
  const Habits habits = take_habits(analysis, settings);
  CHECK(settings.kind == DrillKind::cells);
  REQUIRE_FALSE(settings.cells.empty());
  CHECK(settings.cells.front().way == Way::up);
  std::string cell;
  for (const auto& tone : settings.cells.front().tones) cell += to_string(tone.asked) + " ";
  CHECK(cell == "7 3 5 ");
  CHECK(habits.sentences.front() == "Its most frequent cells are taken over: 7-3-5 up (2).");
}

TEST_CASE("a solo without cells leaves the sheet as it was and says so") {
  DrillSettings settings;
  const Habits habits = take_habits(analysed("C7@0", "C4:1").analysis, settings);
  CHECK(settings.kind == DrillKind::nearest_tones);
  CHECK(habits.sentences.front().find("a plain line is set instead") != std::string::npos);
}
