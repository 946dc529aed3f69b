#include "reports/comparison/bar_cards.hpp"

#include "tests/reports/comparison/sample_comparison.hpp"

#include <nlohmann/json.hpp>
#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::reports::bar_cards;
using insideline::reports::bar_cards_data;
using insideline::reports::ComparisonReport;
using insideline::reports::solos_beside_first;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

namespace {

ComparisonReport one_other_note() {
  ComparisonReport report = sample_comparison({{"Anke", sixteen_bars({3})}, {"<b>", sixteen_bars({3})}});
  report.read[1].solo.notes[7].pitch = {{insideline::Step::d, 0}, 4};
  return report;
}

std::string cards_of(const ComparisonReport& report) { return bar_cards(report, solos_beside_first(report)).html(); }

std::size_t times_on_cards(const std::string& page, const std::string& words) {
  std::size_t count = 0;
  for (std::size_t at = page.find(words); at != std::string::npos; at = page.find(words, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("every bar has a card with both lines, and the most different comes first") {
  const std::string cards = cards_of(one_other_note());
  CHECK(times_on_cards(cards, "<li class=\"card") == 3);
  CHECK(times_on_cards(cards, "class=\"hear\"") == 6);
  CHECK(times_on_cards(cards, "class=\"card to-talk\"") == 1);
  CHECK_THAT(cards, Contains("id=\"s1-b1\" data-place=\"1\" data-rank=\"0\""));
  CHECK_THAT(cards, Contains("<a href=\"#s1-b1\">Bar 2</a>, 13 % apart"));
}

TEST_CASE("a note that differs is told by a frame and by words") {
  const std::string cards = cards_of(one_other_note());
  CHECK(times_on_cards(cards, "class=\"other-pitch\"") == 3);  // in both lines, and among the signs
  CHECK_THAT(cards, Contains("D4 (3) another pitch") && Contains("B4 (3) another pitch"));
  CHECK_THAT(cards, Contains("3 the same, 1 of another pitch"));
}

TEST_CASE("the measure is stated beside the cards") {
  CHECK_THAT(cards_of(one_other_note()), Contains("a note counts a half where the other line strikes another pitch"));
}

TEST_CASE("names are shown on the cards and never run") {
  const std::string cards = cards_of(one_other_note());
  CHECK(times_on_cards(cards, "<b>") == 0);
  CHECK_THAT(cards, Contains("&lt;b&gt;: "));
}

TEST_CASE("what the cards play is each file once") {
  const auto data = nlohmann::json::parse(bar_cards_data(one_other_note()));
  REQUIRE(data["solos"].size() == 2);
  CHECK(data["solos"][1]["bars"].size() == 3);
  CHECK(data["solos"][1]["notes"][7][2] == 62);
}
