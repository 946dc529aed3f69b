#include "reports/html/solo_plots.hpp"

#include "tests/reports/sample_report.hpp"
#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::TimeFeel;
using insideline::reports::Report;
using insideline::reports::solo_plots;
using insideline::tests::report_without_chords;
using insideline::tests::sample_report;

namespace {

Report analysed_report() {
  auto line = insideline::tests::random_line(5, 16);
  Report report;
  report.solo = std::move(line.solo);
  line.harmony.chorus_length = insideline::Beats(32);
  line.harmony.choruses = 2;
  for (auto& chord : line.harmony.chords) chord.chorus = chord.onset < insideline::Beats(32) ? 1 : 2;
  report.analysis = insideline::analyze(report.solo, line.harmony);
  return report;
}

}  // namespace

TEST_CASE("the plots of an analysed solo hold its figures") {
  const Report report = analysed_report();
  const std::string html = solo_plots(report).html();
  for (const char* heading : {"By place in the bar", "By chorus", "By kind of chord", "These changes, or luck?",
                              "Degrees used", "Which way arpeggios run", "Connections"})
    CHECK_THAT(html, Contains("<h3>" + std::string(heading) + "</h3>"));
  const auto& chorus = report.analysis.densities.by_chorus[1];
  CHECK_THAT(html, Contains("<th scope=\"row\">chorus 2</th><td class=\"number\">" + std::to_string(chorus.notes) +
                            "</td><td class=\"number\">" + std::to_string(chorus.chord_tones) + "</td>"));
  const auto& degree = report.analysis.densities.by_degree.front();
  CHECK_THAT(html, Contains("<th scope=\"row\">1</th><td class=\"number\">" + std::to_string(degree.count) + " of "));
  CHECK_THAT(html, !Contains("\"-") && !Contains("\"nan"));
}

TEST_CASE("time feel is plotted where there is any") {
  Report report = sample_report();
  CHECK_THAT(solo_plots(report).html(), !Contains("Swing") && !Contains("Ahead of the beat"));
  TimeFeel feel;
  feel.swing = {.pairs = 12, .ratio = 1.52, .lower = 1.4, .upper = 1.75};
  feel.by_beat = {{1, {.notes = 4, .mean_ms = 12.0}}, {2, {.notes = 3, .mean_ms = -8.0}}};
  report.analysis.time_feel = feel;
  const std::string html = solo_plots(report).html();
  CHECK_THAT(html, Contains("1.52 to 1") && Contains("Ahead of the beat or behind it"));
  CHECK_THAT(html, Contains("<td class=\"number\">2</td><td class=\"number\">-8</td>"));
}

TEST_CASE("without a chord there is nothing to plot") { CHECK(solo_plots(report_without_chords()).empty()); }
