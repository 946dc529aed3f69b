#include "analyzer/measures/figure_table.hpp"
#include "reports/survey/survey_report.hpp"
#include "tests/reports/survey/sample_collection.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using Catch::Contains;

TEST_CASE("the table has one row a solo and one column a figure") {
  const auto report = insideline::tests::sample_collection();
  std::vector<std::vector<std::string>> values(insideline::figure_rows().size(), {"1", "2", ""});
  const std::string csv = insideline::reports::survey_csv(report.solos, values);
  CHECK_THAT(csv, Catch::StartsWith("path,folder,player,title,bars,notes,chord_tones,"));
  CHECK_THAT(csv, Contains("\r\ns/Al/a.mid,s/Al,Al,A,12,100,1,1,"));
  CHECK_THAT(csv, Contains("\r\n\"s/Bo/c, d.mid\",s/Bo,Bo,C,8,50,,,"));
  CHECK_THAT(csv, Contains("'=1+1"));  // no formula of somebody's title
}
