#include "reports/html/plots.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::reports::Axis;
using insideline::reports::axis_from_zero;
using insideline::reports::axis_number;
using insideline::reports::grouped_bars;
using insideline::reports::histogram;
using insideline::reports::horizontal_bars;
using insideline::reports::Joined;
using insideline::reports::line_plot;
using insideline::reports::NamedValue;
using insideline::reports::Numbers;
using insideline::reports::PlotWords;
using insideline::reports::RoleCounts;
using insideline::reports::Series;
using insideline::reports::stacked_bars;

namespace {

const PlotWords words{"Degrees <used>", "What there is.", "degree"};
const std::vector<NamedValue> two_values = {{"3", 6.0, "6 of 9"}, {"b9 & more", 3.0, "3 of 9"}};

void check_frame(const std::string& html) {
  CHECK_THAT(html, Contains("role=\"img\" aria-label=\"Degrees &lt;used&gt;. What there is.\""));
  CHECK_THAT(html, Contains("<details class=\"figures\">") && Contains("<table>"));
  CHECK_THAT(html, !Contains("<used>") && !Contains("nan") && !Contains("inf") && !Contains("\"-"));
}

}  // namespace

TEST_CASE("a bar is as long as its value is of the largest") {
  const std::string html = horizontal_bars(words, "notes", two_values).html();
  check_frame(html);
  CHECK_THAT(html, Contains("width=\"100%\" height=\"14\" class=\"series-1\""));
  CHECK_THAT(html, Contains("width=\"50%\" height=\"14\" class=\"series-1\""));
  CHECK_THAT(html, Contains("<th scope=\"row\">b9 &amp; more</th><td class=\"number\">3 of 9</td>"));
  CHECK_THAT(horizontal_bars(words, "notes", two_values, 12.0).html(),
             Contains("width=\"25%\" height=\"14\" class=\"series-1\""));
}

TEST_CASE("stacked bars are cut by role and keep the counts in the table") {
  const std::vector<RoleCounts> rows = {{"chorus 1", 5, 1, 2, 2}, {"chorus 2", 0, 0, 0, 0}};
  const std::string html = stacked_bars(words, rows).html();
  check_frame(html);
  CHECK_THAT(html, Contains("x=\"0%\" y=\"19\" width=\"50%\" height=\"14\" class=\"part-c\""));
  CHECK_THAT(html, Contains("x=\"50%\" y=\"19\" width=\"10%\" height=\"14\" class=\"part-t\""));
  CHECK_THAT(html, Contains("x=\"60%\" y=\"19\" width=\"20%\" height=\"14\" class=\"part-n\""));
  CHECK_THAT(html, Contains("x=\"80%\" y=\"19\" width=\"20%\" height=\"14\" class=\"part-o\""));
  CHECK_THAT(html, Contains("no notes"));
  CHECK_THAT(html, Contains("<th scope=\"row\">chorus 1</th><td class=\"number\">10</td><td class=\"number\">5</td>"
                            "<td class=\"number\">1</td><td class=\"number\">2</td><td class=\"number\">2</td>"));
}

TEST_CASE("a histogram counts its values in bins and marks the real one") {
  const Axis axis{.name = "share", .low = 0.2, .high = 0.8, .step = 0.1, .numbers = Numbers::percent};
  const std::vector<double> values = {0.3, 0.31, 0.34, 0.36, 0.05, 0.99};
  const std::string html = histogram(words, axis, values, {0.58, "this line"}).html();
  check_frame(html);
  CHECK_THAT(html, Contains("this line: 58 %"));
  CHECK_THAT(html, Contains("<td class=\"number\">30 %</td><td class=\"number\">35 %</td><td class=\"number\">3</td>"));
  CHECK_THAT(html, Contains("<td class=\"number\">35 %</td><td class=\"number\">40 %</td><td class=\"number\">1</td>"));
  CHECK_THAT(html, Contains("<td class=\"number\">20 %</td><td class=\"number\">25 %</td><td class=\"number\">1</td>"));
  CHECK_THAT(html, Contains("<td class=\"number\">75 %</td><td class=\"number\">80 %</td><td class=\"number\">1</td>"));
}

TEST_CASE("grouped bars letter their series and stand row by row") {
  const std::vector<Series> series = {{"first <solo>", two_values}, {"second", {{"3", 1, "1"}, {"b9 & more", 0, "0"}}}};
  const std::string html = grouped_bars(words, series).html();
  check_frame(html);
  CHECK_THAT(html, Contains("A: first &lt;solo&gt;") && Contains("B: second"));
  CHECK_THAT(html, Contains("<th scope=\"row\">3</th><td class=\"number\">6 of 9</td><td class=\"number\">1</td>"));
  CHECK_THAT(grouped_bars(words, {}).html(), Contains("<table>"));
}

TEST_CASE("a line goes from point to point, or in steps") {
  const Axis across{.name = "bar", .low = 0, .high = 4, .step = 1};
  const Axis up{.name = "share", .low = 0, .high = 1, .step = 0.25, .numbers = Numbers::percent};
  const std::vector<insideline::reports::PlottedLine> lines = {{"solo", {{0, 0}, {2, 0.5}, {4, 1}}}, {"empty", {}}};
  const std::string straight = line_plot(words, across, up, lines).html();
  check_frame(straight);
  CHECK_THAT(straight, Contains("d=\"M0 1000L500 500L1000 0\""));
  CHECK_THAT(straight, Contains("<td class=\"number\">2</td><td class=\"number\">50 %</td>"));
  CHECK_THAT(line_plot(words, across, up, lines, Joined::in_steps).html(), Contains("d=\"M0 1000H500V500H1000V0\""));
}

TEST_CASE("axes from zero end at a round number in at most six steps") {
  const auto [largest, high, step] = GENERATE(table<double, double, double>({
      {1, 1, 1},
      {6, 6, 1},
      {7, 8, 2},
      {23, 25, 5},
      {0, 1, 1},
      {100, 100, 20},
      {167, 200, 50},
  }));
  CAPTURE(largest);
  const Axis axis = axis_from_zero("notes", largest);
  CHECK(axis.high == Approx(high));
  CHECK(axis.step == Approx(step));
}

TEST_CASE("numbers on an axis have the places they need") {
  const Axis quarters{.name = "", .step = 0.25};
  CHECK(axis_number(0.25, quarters) == "0.25");
  CHECK(axis_number(1.0, quarters) == "1");
  CHECK(axis_number(-0.0, quarters) == "0");
  CHECK(axis_number(0.05, {.name = "", .step = 0.05, .numbers = Numbers::percent}) == "5 %");
  CHECK(axis_number(20, {.name = "", .step = 10}) == "20");
}
