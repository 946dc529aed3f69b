#include "reports/assessment/assessment_report.hpp"

#include <regex>
#include <sstream>
#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
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
  report.assessment.trouble_spots = {report.assessment.by_direction[1]};
  return report;
}

std::string on_one_line(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }

}  // namespace

TEST_CASE("an assessment says how much is right, where most goes wrong and what to do next") {
  const std::string text = on_one_line(assessment_text(sample(), Colour::off));
  CHECK_THAT(text,
             Contains("52 of 64 notes right; the others: 8 wrong and 4 missing. Not settled: in 64 notes it takes 2 "
                      "mistakes or fewer to show that it is ready, and 14 or more to show that it is not."));
  CHECK_THAT(text, Contains("Besides: 1 note added and 2 times broken off and begun again."));
  CHECK_THAT(text, Contains("Trouble spots: down with 22 of 32 right (6 wrong and 4 missing)."));
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

TEST_CASE("another bound gives another verdict") {
  AssessmentReport report = sample();
  report.bound = 3;
  CHECK_THAT(on_one_line(assessment_text(report, Colour::off)),
             Contains("Ready: surely fewer than one mistake in 3 notes."));
  report.bound = 12;
  CHECK_THAT(on_one_line(assessment_text(report, Colour::off)),
             Contains("Not ready: surely one mistake in 12 notes, or more."));
}

TEST_CASE("from a few notes nothing is settled, even if all are right") {
  AssessmentReport report = sample();
  report.assessment.all = group("all", 16, 16, 0, 0);
  CHECK_THAT(on_one_line(assessment_text(report, Colour::off)),
             Contains("16 of 16 notes right. Not settled: 16 notes are too few to tell."));
}

TEST_CASE("the page says the same, and shows names as text") {
  const std::string page = assessment_page(sample());
  CHECK_THAT(page, Contains("52 of 64 notes right"));
  CHECK_THAT(page, Contains("Quay &lt;Steps&gt;"));
  CHECK_THAT(page, !Contains("<Steps>"));
  CHECK_THAT(page, Contains("By direction of the arpeggio"));
}
