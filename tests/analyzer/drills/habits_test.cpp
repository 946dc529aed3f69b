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
  Analysis analysis;
  analysis.summary.arpeggios_ascending = 9;
  const auto gaps = gaps_of(analysis, {});
  REQUIRE_FALSE(gaps.empty());
  CHECK(gaps.front().sentence == "No arpeggio comes down (9 go up).");
  CHECK(gaps.front().drill.kind == DrillKind::arpeggios);
  CHECK(gaps.front().drill.way == Way::down);
}

TEST_CASE("a solo that never comes down from the seventh is given that") {
  Analysis analysis;
  analysis.summary.arpeggios_descending = 8;
  analysis.summary.straight_descents = 8;
  const auto gaps = gaps_of(analysis, {});
  const Gap* gap = gap_with(gaps, "descents starts from the seventh");
  REQUIRE(gap != nullptr);
  CHECK(gap->sentence == "None of 8 descents starts from the seventh.");
  CHECK(gap->drill.from_tone == 7);
  CHECK(gap->drill.way == Way::down);
  CHECK(gap_with(gaps, "comes down") == nullptr);
}

TEST_CASE("inversions that never come are named") {
  Analysis analysis;
  insideline::Arpeggio arpeggio;
  arpeggio.inversion = Inversion::root_position;
  analysis.arpeggios.assign(8, arpeggio);
  const auto gaps = gaps_of(analysis, {});
  const Gap* inversion = gap_with(gaps, "first inversion");
  REQUIRE(inversion != nullptr);
  CHECK(inversion->sentence == "None of 8 arpeggios is in first inversion.");
  CHECK(inversion->drill.inversion == Inversion::first);
}

TEST_CASE("the gap that lies furthest below what is usual comes first, details of arpeggios last") {
  Analysis analysis;
  analysis.summary.arpeggio_share = {15, 83};
  analysis.summary.guide_tone_resolutions = {0, 11};
  analysis.summary.arpeggios_ascending = 4;
  analysis.summary.arpeggios_descending = 8;
  analysis.summary.straight_descents = 8;
  const auto gaps = gaps_of(analysis, {});
  REQUIRE(gaps.size() == 3);
  CHECK(gaps[0].sentence ==
        "15 of 83 notes belong to an arpeggio (18 %, surely under 28 %); usual is 68 %, the median of the ten demo "
        "pieces.");
  CHECK(gaps[0].drill.kind == DrillKind::arpeggios);
  CHECK(gaps[1].sentence == "None of 11 connections leads or keeps a guide tone.");
  CHECK(gaps[1].drill.kind == DrillKind::guide_tones);
  CHECK(gaps[2].sentence == "None of 8 descents starts from the seventh.");
}

TEST_CASE("fewer than eight chances make no gap") {
  for (const int chances : {7, 8}) {
    Analysis analysis;
    analysis.summary.arpeggios_ascending = chances;
    analysis.summary.guide_tone_resolutions = {0, chances};
    analysis.summary.thirds_given = {0, chances};
    analysis.summary.connections_by_kind[insideline::ConnectionKind::leap] = chances;
    analysis.arpeggios.resize(static_cast<std::size_t>(chances));
    CHECK(gaps_of(analysis, {}).empty() == (chances < 8));
  }
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
  for (const int kept : {0, 1}) {
    Analysis analysis;
    analysis.summary.connections_by_kind[insideline::ConnectionKind::half_step] = 12 - kept;
    analysis.summary.connections_by_kind[insideline::ConnectionKind::common_tone] = kept;
    const auto gaps = gaps_of(analysis, {});
    const Gap* gap = gap_with(gaps, "common tone");
    CHECK((gap != nullptr) == (kept == 0));
    if (gap == nullptr) continue;
    CHECK(gap->sentence == "No common tone is kept at any of 12 changes.");
    CHECK(gap->drill.kind == DrillKind::common_tones);
  }
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
