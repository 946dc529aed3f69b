#include "reports/printed/text_rows.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::written_rhythm;
using insideline::reports::annotated_marks;
using insideline::reports::degree_row;
using insideline::reports::excerpt_of;
using insideline::reports::LinePlan;
using insideline::reports::Report;
using insideline::reports::Sheet;
using insideline::tests::sample_report;

TEST_CASE("an arrow over the end of a line stands before the degree that it leads to") {
  const Report report = sample_report();
  const Sheet sheet{report, {}, *excerpt_of(report.solo, std::nullopt)};
  const auto bars = written_rhythm(report.solo);
  const auto marks = annotated_marks(sheet, {});
  CHECK_THAT(degree_row(sheet, bars, {}, marks), Contains("\\connection") && !Contains("\\reached"));
  LinePlan two_lines;
  two_lines.starts = {1};
  CHECK_THAT(degree_row(sheet, bars, two_lines, marks),
             !Contains("\\connection") && Contains("% bar 2\n  \\markup \\reached #0.3 \\degree #'C \"\" \"\" \"3\""));
}
