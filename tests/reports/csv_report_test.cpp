#include "reports/csv_report.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

namespace insideline::tests {
namespace {

std::vector<std::string> rows_of(const std::string& text) {
  std::vector<std::string> rows;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = text.find("\r\n", from);
    REQUIRE(end != std::string::npos);
    rows.push_back(text.substr(from, end - from));
    from = end + 2;
  }
  return rows;
}

}  // namespace

TEST_CASE("the table has a header and a row for each note, with RFC 4180 line ends") {
  const auto rows = rows_of(reports::csv_report(sample_report()));
  REQUIRE(rows.size() == 14);
  CHECK(rows[0] ==
        "solo,index,chorus,bar,beat,onset_quarters,duration_quarters,grace,midi,name,written,chord,governor,"
        "placement,degree,role,figure,resolves_to,confidence,arpeggio,reason");
  CHECK(rows[11] ==
        "sample.musicxml,10,1,2,4.5,7.5,2.5,no,64,E4,C#5,G7,Cmaj7,anticipation,3,chord tone,third,,0.98,,"
        "\"a third, \"\"by hand\"\"\"");
}

TEST_CASE("a cell with a comma, a quote or a line break is quoted") {
  reports::Report report = sample_report();
  report.source.solo_file = "one, \"two\"\nthree.musicxml";
  const std::string text = reports::csv_report(report);
  CHECK(text.find("\r\n\"one, \"\"two\"\"\nthree.musicxml\",0,") != std::string::npos);
}

TEST_CASE("a text from a file that begins like a formula is shown, not computed") {
  const auto start = GENERATE(as<std::string>{}, "=", "+", "-", "@");
  reports::Report report = sample_report();
  report.source.solo_file = start + "cmd.musicxml";
  CHECK(reports::csv_report(report).find("\r\n'" + start + "cmd.musicxml,0,") != std::string::npos);
}

TEST_CASE("a triplet's place is a decimal that a spreadsheet does not take for a date") {
  reports::Report report = sample_report();
  report.solo.notes[1].onset = Beats(1, 3);
  const auto rows = rows_of(reports::csv_report(report));
  CHECK(rows[2].find(",1.333333,0.333333,0.5,") != std::string::npos);
  CHECK(rows[2].find('/') == std::string::npos);
}

}  // namespace insideline::tests
