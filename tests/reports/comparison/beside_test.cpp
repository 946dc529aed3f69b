#include "reports/comparison/beside.hpp"

#include "tests/reports/comparison/sample_comparison.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::reports::BesideFirst;
using insideline::reports::ComparisonReport;
using insideline::reports::Occasion;
using insideline::reports::solos_beside_first;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

namespace {

ComparisonReport two_takes() {
  return sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({3})}}, Occasion::before_after);
}

std::string words_on_first_bar(const ComparisonReport& report) {
  const BesideFirst pair = solos_beside_first(report).front();
  return counts_in_words(report, pair, pair.bars.bars.front());
}

}  // namespace

TEST_CASE("the words on a bar count what is the same and what is not") {
  ComparisonReport report = two_takes();
  CHECK(words_on_first_bar(report) == "7 the same");
  report.read[1].solo.notes[0].pitch = {{insideline::Step::e, 0}, 4};
  CHECK(words_on_first_bar(report) == "6 the same, 1 of another pitch");
  report.read[1].analysis.labels[0].role = insideline::Role::outside;
  report.read[1].analysis.labels[1].role = insideline::Role::outside;
  CHECK(words_on_first_bar(report) == "5 the same, 1 in another role, 1 of another pitch and role");
  report.read[1].solo.notes.erase(report.read[1].solo.notes.begin() + 2);
  report.read[1].analysis.labels.erase(report.read[1].analysis.labels.begin() + 2);
  CHECK(words_on_first_bar(report) == "4 the same, 1 in another role, 1 of another pitch and role, 1 only in Anke");
  report.read[1].solo.notes.clear();
  report.read[1].analysis.labels.clear();
  CHECK(words_on_first_bar(report) == "7 only in Anke, Bjarne rests");
  report.read[0] = report.read[1];
  CHECK(words_on_first_bar(report) == "both rest");
}

TEST_CASE("a bar is named by its number, and by both where they differ") {
  ComparisonReport report = two_takes();
  const BesideFirst pair = solos_beside_first(report).front();
  CHECK(bar_name(report, pair, pair.bars.bars[1]) == "bar 2");
  report.read[1].solo.bars[1].number = 18;
  CHECK(bar_name(report, pair, pair.bars.bars[1]) == "bars 2 and 18");
}

TEST_CASE("each solo stands beside the first, and those without a bar in common are left out") {
  ComparisonReport report =
      sample_comparison({{"a", sixteen_bars({3})}, {"b", sixteen_bars({3})}, {"c", sixteen_bars({3})}});
  REQUIRE(solos_beside_first(report).size() == 2);
  for (insideline::Bar& bar : report.read[1].solo.bars) bar.number += 100;
  const std::vector<BesideFirst> pairs = solos_beside_first(report);
  REQUIRE(pairs.size() == 1);
  CHECK(pairs.front().other == 2);
}

TEST_CASE("choruses stand beside each other by their place in the form") {
  ComparisonReport report =
      sample_comparison({{"chorus 1", sixteen_bars({3})}, {"chorus 2", sixteen_bars({3})}}, Occasion::choruses);
  CHECK(solos_beside_first(report).empty());  // its changes do not go round
  report.read.front().analysis.harmony.chorus_length = 4;
  report.solos[0].of_bars = {0};
  report.solos[1].of_bars = {2};
  const std::vector<BesideFirst> pairs = solos_beside_first(report);
  REQUIRE(pairs.size() == 1);
  CHECK(bar_name(report, pairs.front(), pairs.front().bars.bars.front()) == "bars 1 and 3");
}
