#include "analyzer/drills/best_figures.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/drills/drill_costs.hpp"
#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <random>
#include <vector>

using insideline::best_figures;
using insideline::Changes;
using insideline::ChosenFigures;
using insideline::ConnectionRules;
using insideline::DrillFigures;
using insideline::DrillKind;
using insideline::DrillRhythm;
using insideline::DrillSegment;
using insideline::DrillSettings;
using insideline::figures_over;
using insideline::Harmony;
using insideline::lay_out;
using insideline::segments_of;
using insideline::Solo;
using insideline::step_cost;
using insideline::wanted_tones;
using insideline::Way;
using insideline::tests::random_chart;

namespace {

struct Case {
  Harmony harmony;
  std::vector<DrillSegment> segments;
  std::vector<DrillFigures> sets;
  [[nodiscard]] std::vector<const DrillFigures*> pointers() const {
    std::vector<const DrillFigures*> all;
    for (const DrillFigures& set : sets) all.push_back(&set);
    return all;
  }
};

Case case_of(const Changes& changes, const DrillSettings& settings) {
  Case made;
  Solo solo;
  int number = 0;
  for (const auto& bar : changes.bars) solo.bars.push_back({++number, bar.onset, bar.length, *changes.meter});
  made.harmony = lay_out(changes, solo);
  std::vector<std::size_t> wanted;
  for (const auto& sounding : made.harmony.chords) wanted.push_back(wanted_tones(sounding.chord, settings));
  made.segments = segments_of(solo, made.harmony, settings, wanted);
  for (const DrillSegment& segment : made.segments)
    made.sets.push_back(figures_over(made.harmony.chords[segment.chord].chord, segment, settings));
  return made;
}

/// The cost of a whole choice by the plain rule; none where a step is not allowed.
std::optional<int> cost_of_choice(const ConnectionRules& rules, const Case& made,
                                  const std::vector<std::size_t>& choice) {
  int cost = 0;
  for (std::size_t i = 0; i < choice.size(); ++i) {
    cost += made.sets[i].figures[choice[i]].cost;
    if (i == 0) continue;
    const auto step =
        step_cost(rules, made.segments[i], made.sets[i - 1].figures[choice[i - 1]], made.sets[i].figures[choice[i]]);
    if (!step) return std::nullopt;
    cost += *step;
  }
  return cost;
}

/// Every choice, one after the other.
std::optional<int> cheapest_of_all(const ConnectionRules& rules, const Case& made) {
  std::vector<std::size_t> choice(made.sets.size(), 0);
  std::optional<int> cheapest;
  while (true) {
    const auto cost = cost_of_choice(rules, made, choice);
    if (cost && (!cheapest || *cost < *cheapest)) cheapest = cost;
    std::size_t at = 0;
    while (at < choice.size() && ++choice[at] == made.sets[at].figures.size()) choice[at++] = 0;
    if (at == choice.size()) return cheapest;
  }
}

}  // namespace

TEST_CASE("the search finds the cheapest of all lines there are") {
  auto [kind, rhythm, bars] = GENERATE(table<DrillKind, DrillRhythm, int>({
      {DrillKind::nearest_tones, DrillRhythm::quarters, 3},
      {DrillKind::common_tones, DrillRhythm::quarters, 3},
      {DrillKind::arpeggios, DrillRhythm::eighths, 4},
      {DrillKind::cells, DrillRhythm::eighths, 4},
  }));
  DrillSettings settings;
  settings.kind = kind;
  settings.rhythm = rhythm;
  settings.range = {60, 74};
  settings.cells = {{{{{3, 0}, false}, {{5, 0}, false}}, std::nullopt},
                    {{{{1, 0}, false}, {{5, 0}, false}}, std::nullopt}};
  for (unsigned seed = 1; seed <= 12; ++seed) {
    settings.seed = seed;
    const Case made = case_of(random_chart(seed, bars), settings);
    const ConnectionRules rules{made.harmony, settings};
    const ChosenFigures found = best_figures(rules, made.segments, made.pointers());
    INFO("seed " << seed);
    const auto cheapest = cheapest_of_all(rules, made);
    REQUIRE(cheapest);
    CHECK(found.cost == *cheapest);
    CHECK(cost_of_choice(rules, made, found.figures) == found.cost);
  }
}

TEST_CASE("what a step between figures costs: the distance, and how unlike the player it is") {
  using insideline::Charge;
  using insideline::connection_cost;
  using insideline::ConnectionKind;
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  const Case made = case_of(random_chart(1, 2), settings);
  const auto cost = [&](int from, int to) {
    return connection_cost({made.harmony, settings}, made.segments.back(), from, to).value();
  };
  const int far = cost_of(Charge::distance);
  CHECK(cost(60, 60) == cost_of(Charge::repeated_tone));
  CHECK(cost(60, 61) == 0);
  CHECK(cost(62, 60) == 0);
  CHECK(cost(60, 63) == far);
  CHECK(cost(67, 60) == 5 * far);

  settings.connection_habits = {{ConnectionKind::half_step, 0.8}, {ConnectionKind::third, 0.4}};
  const int unlike = cost_of(Charge::unlike_model);
  CHECK(cost(60, 61) == 0);
  CHECK(cost(60, 63) == far + unlike / 2);
  CHECK(cost(64, 60) == 2 * far + unlike / 2);
  CHECK(cost(60, 62) == unlike);
  CHECK(cost(60, 60) == unlike);
  CHECK(cost(60, 67) == 5 * far + unlike);
}

TEST_CASE("the seed chooses among equally cheap lines and never buys a dearer one") {
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  settings.range = {55, 84};
  const Case made = case_of(random_chart(7, 16), settings);
  const ChosenFigures plain = best_figures({made.harmony, settings}, made.segments, made.pointers());
  for (unsigned seed = 1; seed <= 20; ++seed) {
    settings.seed = seed;
    const ChosenFigures other = best_figures({made.harmony, settings}, made.segments, made.pointers());
    CHECK(other.cost == plain.cost);
    CHECK(best_figures({made.harmony, settings}, made.segments, made.pointers()).figures == other.figures);
  }
}
