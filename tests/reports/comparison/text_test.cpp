#include "reports/comparison/comparison_report.hpp"
#include "tests/reports/comparison/sample_comparison.hpp"

#include <sstream>
#include <string>

#include <catch2/catch.hpp>

using insideline::reports::Colour;
using insideline::reports::comparison_text;
using insideline::reports::ComparisonReport;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

namespace {

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("sentences come before the table") {
  const std::string text = comparison_text(
      sample_comparison({{"Anke", sixteen_bars({1, 2})}, {"Bjarne", sixteen_bars({4, 5})}}), Colour::off);
  CHECK(text.starts_with("Anke and Bjarne side by side\n"));
  CHECK(says(text,
             "\nWhat is clearly different, B against A\n  - Bjarne plays clearly more chord tones: 90 % (72 of 80) "
             "against 30 % (24 of\n    80); the difference is between "));
  const std::size_t table = text.find("\nEvery figure, B against A\n");
  REQUIRE(table != std::string::npos);
  CHECK(text.find("How sure is that?") < table);
  CHECK(text.find("  chord tones", table) != std::string::npos);
}

TEST_CASE("the table has both values with their counts, the difference and what it may be") {
  const std::string text =
      comparison_text(sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({4})}}), Colour::off);
  CHECK(says(text, "\n  chord tones                    60 %   48/80 80 %   64/80  +20   +20 to +20 *\n"));
}

TEST_CASE("no line of the table is wider than a page") {
  const std::string text = comparison_text(
      sample_comparison({{"Anke", sixteen_bars({1, 4, 0})}, {"Bjarne", sixteen_bars({2, 5, 0})}}), Colour::off);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(line.size() <= 80);
  }
}

TEST_CASE("each further solo has its own findings and its own table") {
  const std::string text = comparison_text(
      sample_comparison(
          {{"Anke", sixteen_bars({1, 2})}, {"Bjarne", sixteen_bars({4, 5})}, {"Carla", sixteen_bars({2, 1, 1})}}),
      Colour::off);
  CHECK(says(text, "What is clearly different, C against A\n  - None of the main figures.\n"));
  CHECK(says(text, "Every figure, C against A\n"));
}

TEST_CASE("cautions stand beside how sure it is, and strange names do no harm") {
  ComparisonReport report = sample_comparison({{"Anke\x1b[2J", sixteen_bars({3})}, {"Bjarne", sixteen_bars({4})}});
  report.comparison.cautions = {"Bjarne has only 12 notes: from fewer than 30 little can be said"};
  const std::string text = comparison_text(report, Colour::off);
  CHECK(says(text, "  - Bjarne has only 12 notes: from fewer than 30 little can be said.\n"));
  CHECK_FALSE(says(text, "\x1b"));
}

TEST_CASE("colour only paints") {
  const ComparisonReport report = sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({4})}});
  std::string painted = comparison_text(report, Colour::on);
  CHECK(says(painted, "\x1b[1m"));
  for (std::size_t at = painted.find('\x1b'); at != std::string::npos; at = painted.find('\x1b'))
    painted.erase(at, painted.find('m', at) - at + 1);
  CHECK(painted == comparison_text(report, Colour::off));
}
