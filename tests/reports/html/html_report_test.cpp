#include "reports/html/html_report.hpp"

#include "reports/html/markup.hpp"
#include "reports/text/remarks.hpp"
#include "tests/reports/sample_report.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>
#include <variant>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::reports::html_report;
using insideline::reports::Report;
using insideline::tests::report_without_chords;
using insideline::tests::sample_report;

namespace {

/// Eight running eighths a bar over a chord a bar: more than most solos have.
Report running_eighths(int bars) {
  auto line = insideline::tests::random_line(3, bars);
  Report report;
  report.source.solo_file = "random.musicxml";
  report.source.changes_file = "in score";
  report.solo = std::move(line.solo);
  report.analysis = insideline::analyze(report.solo, line.harmony);
  return report;
}

}  // namespace

TEST_CASE("the page opens with the words of the printed summary") {
  const Report report = sample_report();
  const std::string html = html_report(report);
  for (const auto& section : insideline::reports::summary_sections(report)) {
    CHECK_THAT(html, Contains("<h3>" + insideline::reports::escaped(section.title) + "</h3>"));
    for (const auto& remark : section.remarks)
      if (const auto* sentences = std::get_if<insideline::reports::Sentences>(&remark))
        CHECK_THAT(html, Contains("<p>" + insideline::reports::escaped(*sentences) + "</p>"));
  }
  CHECK(html.find("id=\"summary\"") < html.find("id=\"line-map\""));
  CHECK(html.find("id=\"line-map\"") < html.find("id=\"plots\""));
}

TEST_CASE("names with markup in them are text everywhere on the page") {
  const std::string evil = "</script><script>alert(1)</script><img src=x onerror=alert(1)>\"'";
  Report report = sample_report();
  report.solo.title = evil;
  report.solo.part = evil;
  report.source.solo_file = evil;
  report.source.changes_file = evil;
  report.source.changes_title = evil;
  for (auto& label : report.analysis.labels) label.reason = evil;
  for (auto& chord : report.analysis.harmony.chords) chord.chord.symbol = evil;
  for (auto& bar : report.analysis.telling_bars) bar.why = evil;
  report.analysis.warnings = {evil};
  report.analysis.arpeggios[0].spells = evil;
  const std::string html = html_report(report);
  CHECK_THAT(html, !Contains("<img") && !Contains("<script>alert"));
}

TEST_CASE("a solo without a chord, and one without a note, still give a page") {
  CHECK_THAT(html_report(report_without_chords()), Contains("No note sounds over a chord") && Contains("id=\"n0\""));
  Report empty;
  empty.solo = insideline::tests::solo_from("r:4");
  CHECK_THAT(html_report(empty), !Contains("id=\"line-map\"") && Contains("</html>"));
}

TEST_CASE("the same solo gives the same page") { CHECK(html_report(sample_report()) == html_report(sample_report())); }

TEST_CASE("64 bars stay under 400 KB, 2,000 bars under 5 MB") {
  CHECK(html_report(running_eighths(64)).size() < 400'000);
  const Report long_solo = running_eighths(2000);
  CHECK(long_solo.solo.notes.size() > 9'000);
  CHECK(html_report(long_solo).size() < 5'000'000);
}
