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
