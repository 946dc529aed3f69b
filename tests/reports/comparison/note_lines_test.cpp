#include "reports/comparison/note_lines.hpp"

#include "tests/reports/comparison/sample_comparison.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::reports::line_panels;
using insideline::reports::note_lines;
using insideline::reports::Occasion;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

TEST_CASE("each solo has a panel of all its bars") {
  const auto report = sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({3})}});
  const auto panels = line_panels(report);
  REQUIRE(panels.size() == 2);
  CHECK(panels[1].name == "Bjarne");
  CHECK(panels[1].report == &report.read[1]);
  CHECK(panels[1].first_bar == 0);
  CHECK(panels[1].last_bar == 2);
}

TEST_CASE("choruses are panels of one solo, one after the other") {
  auto report =
      sample_comparison({{"chorus 1", sixteen_bars({3})}, {"chorus 2", sixteen_bars({3})}}, Occasion::choruses);
  report.solos[0].bars = 2;
  report.solos[1].bars = 1;
  const auto panels = line_panels(report);
  REQUIRE(panels.size() == 2);
  CHECK(panels[0].last_bar == 1);
  CHECK(panels[1].first_bar == 2);
  CHECK(panels[1].report == &report.read[0]);
  // The longest panel has 8 quarters: the last bar's E4 of chorus 2 begins at its left edge.
  const std::string lines = note_lines(panels).html();
  CHECK(lines.find("chorus 1: 11 notes in 2 bars") != std::string::npos);
  CHECK(lines.find("chorus 2: 1 notes in 1 bars") != std::string::npos);
}

TEST_CASE("a note is a stroke at its time and its height, thick where it is a chord tone") {
  const auto report = sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({3})}});
  const std::string lines = note_lines(line_panels(report)).html();
  // D4 at the start of 12 quarters; the eighth rows from the top are semitones.
  CHECK(lines.find("<rect x=\"0.000%\"") != std::string::npos);
  CHECK(lines.find("height=\"4.8\" class=\"series-1\"") != std::string::npos);
  CHECK(lines.find("height=\"2.2\" class=\"series-4\"") != std::string::npos);  // the passing D flat
  CHECK(lines.find("height=\"3.4\" class=\"series-3\"") != std::string::npos);  // the held ninth
}
