#include "reports/printed/line_plan.hpp"

#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using insideline::Beats;
using insideline::written_rhythm;
using insideline::reports::excerpt_of;
using insideline::reports::LastLine;
using insideline::reports::line_of;
using insideline::reports::line_plan;
using insideline::reports::LinePlan;
using insideline::reports::Report;
using insideline::reports::Sheet;
using insideline::tests::solo_from;

namespace {

Report report_of(int bars, const std::string& bar) {
  std::string melody;
  for (int count = 0; count < bars; ++count) melody += bar + " ";
  Report report;
  report.solo = solo_from(melody);
  return report;
}

LinePlan plan_of(const Report& report) {
  const auto bars = written_rhythm(report.solo);
  return line_plan({report, {}, *excerpt_of(report.solo, std::nullopt)}, bars);
}

const std::string quarters = "C4:1 D4:1 E4:1 F4:1";
const std::string sixteenths =
    "C4:1/4 D4:1/4 E4:1/4 F4:1/4 C4:1/4 D4:1/4 E4:1/4 F4:1/4 C4:1/4 D4:1/4 E4:1/4 F4:1/4 C4:1 ";

}  // namespace

TEST_CASE("four bars make a line where they fit, else two lines of two, or of one") {
  CHECK(plan_of(report_of(8, quarters)).starts == std::set<std::size_t>{4});
  CHECK(plan_of(report_of(4, sixteenths)).starts == std::set<std::size_t>{2});
  std::string thirty_seconds;
  for (int note = 0; note < 32; ++note) thirty_seconds += "C4:1/8 ";
  CHECK(plan_of(report_of(4, thirty_seconds)).starts == std::set<std::size_t>{1, 2, 3});
}

TEST_CASE("a crowded group of four does not make the others shorter") {
  std::string melody;
  for (const std::string& bar : {quarters, quarters, quarters, quarters, sixteenths, sixteenths, sixteenths, sixteenths,
                                 quarters, quarters, quarters, quarters})
    melody += bar + " ";
  Report report;
  report.solo = solo_from(melody);
  const LinePlan plan = plan_of(report);
  CHECK(plan.starts == std::set<std::size_t>{4, 6, 8});
  CHECK(line_of(plan, 3) == 0);
  CHECK(line_of(plan, 7) == 2);
  CHECK(line_of(plan, 11) == 3);
}

TEST_CASE("a last line with fewer bars is not stretched") {
  CHECK(plan_of(report_of(6, quarters)).last == LastLine::short_of_bars);
  CHECK(plan_of(report_of(8, quarters)).last == LastLine::full);
}

TEST_CASE("a section begins with its letter in a box, behind a double bar line but at the beginning of the sheet") {
  Report report = report_of(6, quarters);
  insideline::Harmony& harmony = report.analysis.harmony;
  harmony.sections = {{.name = "A", .onset = 0, .duration = 8, .chorus = 1, .first_bar = 1, .last_bar = 2},
                      {.name = "B \"x\"", .onset = 8, .duration = 16, .chorus = 1, .first_bar = 3, .last_bar = 6}};
  report.solo.double_bars = {20};
  const Sheet sheet{report, {}, *excerpt_of(report.solo, std::nullopt)};
  const auto text_at = [&](std::size_t bar) {
    return insideline::reports::form_text(sheet, report.solo.bars[bar], bar == 0);
  };
  CHECK(text_at(0) == "\\mark \\markup \\letter \"A\" ");
  CHECK(text_at(1).empty());
  CHECK(text_at(2) == "\\bar \"||\" \\mark \\markup \\letter \"B \\\"x\\\"\" ");
  CHECK(text_at(5) == "\\bar \"||\" ");
  harmony.choruses = 2;
  harmony.chorus_length = 8;
  CHECK(text_at(2) ==
        "\\bar \"||\" \\mark \\markup \\concat { \\chorus \"2\" \\hspace #0.6 \\letter \"B \\\"x\\\"\" } ");
}

TEST_CASE("a chorus begins a line, and a page where that fills pages") {
  Report report = report_of(12, quarters);
  report.analysis.harmony.choruses = 2;
  report.analysis.harmony.chorus_length = Beats(4 * 6);
  CHECK(plan_of(report).starts == std::set<std::size_t>{4, 6, 10});
  CHECK(plan_of(report).pages.empty());
  report = report_of(32, quarters);
  report.analysis.harmony.choruses = 2;
  report.analysis.harmony.chorus_length = Beats(4 * 16);
  CHECK(plan_of(report).pages.empty());
  report = report_of(48, quarters);
  report.analysis.harmony.choruses = 2;
  report.analysis.harmony.chorus_length = Beats(4 * 24);
  CHECK(plan_of(report).pages == std::set<std::size_t>{24});
}
