#include "reports/assessment/assessment_report.hpp"

#include <regex>
#include <sstream>
#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::Ladder;
using insideline::TakeGroup;
using insideline::reports::assessment_page;
using insideline::reports::assessment_text;
using insideline::reports::AssessmentReport;
using insideline::reports::Colour;

namespace {

TakeGroup group(const std::string& name, int right, int of, int wrong, int missing) {
  TakeGroup made;
  made.name = name;
  made.right = {right, of};
  made.wrong = wrong;
  made.missing = missing;
  return made;
}

AssessmentReport sample() {
  AssessmentReport report;
  report.take_file = "take.mid";
  report.sheet_title = "Quay <Steps>";
  report.assessment.all = group("all", 52, 64, 8, 4);
  report.assessment.added = 1;
  report.assessment.restarts = 2;
  report.assessment.by_direction = {group("up", 30, 32, 2, 0), group("down", 22, 32, 6, 4)};
  report.assessment.by_bar = {group("bar 1", 8, 8, 0, 0)};
  report.assessment.breakdowns = {report.assessment.by_direction[1]};
  return report;
}

std::string on_one_line(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }

}  // namespace

TEST_CASE("an assessment says how much is right, where it breaks down and what to do next") {
  const std::string text = on_one_line(assessment_text(sample(), Colour::off));
  CHECK_THAT(text, Contains("52 of 64 notes (81 %) right."));
  CHECK_THAT(text, Contains("anything from 70 % to 89 % fits"));
  CHECK_THAT(text, Contains("It is coming, but not ready (75 % to 90 %). Of the others: 8 wrong and 4 missing."));
  CHECK_THAT(text, Contains("Besides: 1 note added and 2 times broken off and begun again."));
  CHECK_THAT(text, Contains("It breaks down here: down: 22 of 32 (6 wrong and 4 missing)."));
  CHECK_THAT(text, Contains("Next: down alone a few times"));
  CHECK_THAT(text, Contains("ask your teacher or a physician"));
}

TEST_CASE("a take that was played to a click is told where it sits in time") {
  AssessmentReport report = sample();
  insideline::TimeFeel feel;
  feel.swing = {.pairs = 9, .ratio = 1.8, .lower = 1.6, .upper = 2.0};
  feel.on_beat = {.notes = 20, .mean_ms = 18.0, .mean_percent = 3.4};
  report.time_feel = feel;
  const std::string text = on_one_line(assessment_text(report, Colour::off));
  CHECK_THAT(text, Contains("Eighths swing 1.80 to 1"));
  CHECK_THAT(text, Contains("20 notes on a beat: 18 ms behind the beat (3 % of a beat)."));
}

TEST_CASE("only what can be compared has a table, and no line is wider than the page") {
  const std::string text = assessment_text(sample(), Colour::off);
  CHECK_THAT(text, Contains("By direction of the arpeggio"));
  CHECK_THAT(text, !Contains("By bar"));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80 + 2 * 20);  // a block is three bytes
}

TEST_CASE("another ladder gives another verdict") {
  AssessmentReport report = sample();
  report.ladder = Ladder{0.5, 0.7, 0.8};
  CHECK_THAT(assessment_text(report, Colour::off), Contains("It is secure (80 % and more)."));
  report.ladder = Ladder{0.85, 0.9, 0.95};
  CHECK_THAT(assessment_text(report, Colour::off), Contains("The fingers do not have it yet (below 85 %)."));
}

TEST_CASE("the page says the same, and shows names as text") {
  const std::string page = assessment_page(sample());
  CHECK_THAT(page, Contains("52 of 64 notes (81 %) right."));
  CHECK_THAT(page, Contains("Quay &lt;Steps&gt;"));
  CHECK_THAT(page, !Contains("<Steps>"));
  CHECK_THAT(page, Contains("By direction of the arpeggio"));
}
