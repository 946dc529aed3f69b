#include "reports/survey/survey_report.hpp"
#include "tests/reports/survey/sample_collection.hpp"

#include <catch2/catch.hpp>

#include <string>

using Catch::Contains;
using insideline::reports::collection_page;

namespace {

insideline::reports::CollectionReport empty_collection(const std::string& grouped_by) {
  insideline::reports::CollectionReport report;
  report.grouped_by = grouped_by;
  return report;
}

}  // namespace

TEST_CASE("the page has the words, the spreads, the players and the cells") {
  const std::string page = collection_page(insideline::tests::sample_collection());
  CHECK_THAT(page, Contains("The collection has 3 solos by 2 players"));
  CHECK_THAT(page, Contains("id=\"spread\"") && Contains("id=\"figures\"") && Contains("id=\"groups\""));
  CHECK_THAT(page, Contains("median") && Contains("3-5-b7"));
}

TEST_CASE("a name of a file is shown and never run") {
  const std::string page = collection_page(insideline::tests::sample_collection());
  CHECK_THAT(page, Contains("s/Bo/&lt;b&gt;.mid"));
  CHECK_THAT(page, !Contains("<b>.mid"));
}

TEST_CASE("the page of an empty collection has its sentence alone") {
  const std::string page = collection_page(empty_collection("player"));
  CHECK_THAT(page, Contains("The collection has no solos") && !Contains("id=\"spread\""));
}

TEST_CASE("what takes room on the page of a collection is folded") {
  const std::string page = collection_page(insideline::tests::sample_collection());
  CHECK_THAT(page, Contains("<summary>Chord tones: how many solos have how much (5 plots)</summary>"));
  CHECK_THAT(page, Contains("figures as a table</summary>"));
  CHECK_THAT(page, Contains("<summary>Arpeggios</summary>"));
}

TEST_CASE("a solo with a page of its own is linked, by player") {
  insideline::reports::CollectionReport report = insideline::tests::sample_collection();
  CHECK_THAT(collection_page(report), !Contains("id=\"solos\""));
  report.solos[1].page = "pages/Bo/%3Cb%3E.mid.html";
  const std::string page = collection_page(report);
  CHECK_THAT(page, Contains("id=\"solos\"") && Contains("<h3>Bo</h3>") && !Contains("<h3>Al</h3>"));
  CHECK_THAT(page, Contains("<a href=\"pages/Bo/%3Cb%3E.mid.html\">&lt;b&gt;.mid</a>"));
}

TEST_CASE("the page has one line a player where names say when solos were played") {
  insideline::reports::CollectionReport report = insideline::tests::sample_collection();
  CHECK_THAT(collection_page(report), !Contains("id=\"courses\""));
  report.solos[1].path = "s/Bo/2026-03-01.mid";
  report.solos[2].path = "s/Bo/2026-03-09.mid";
  CHECK_THAT(collection_page(report), Contains("id=\"courses\"") && Contains("days since 2026-03-01"));
}
