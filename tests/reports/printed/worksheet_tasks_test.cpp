#include "reports/printed/worksheet_tasks.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

using insideline::reports::bars_with_counts;
using insideline::reports::excerpt_of;
using insideline::reports::Report;
using insideline::reports::Sheet;
using insideline::reports::Task;
using insideline::reports::worksheet_tasks;
using insideline::tests::sample_report;

namespace {

std::string texts_of(const std::vector<Task>& tasks) {
  std::string text;
  for (const Task& task : tasks) text += task.instruction + " = " + task.answer + "\n";
  return text;
}

}  // namespace

TEST_CASE("tasks ask for what is in the solo, and say how much of it") {
  const Report report = sample_report();
  CHECK(texts_of(worksheet_tasks({report, {}, *excerpt_of(report.solo, std::nullopt)})) ==
        "Write under every note which degree of its chord it is. (12 notes) = "
        "The degrees stand under the notes; a box is a tension, parentheses a non-chord tone.\n"
        "Circle the thirds of the chords. (3 thirds) = 3 thirds: bars 1, 2 (2)\n"
        "Underline the sevenths of the chords. (2 sevenths) = 2 sevenths: bars 1, 2\n"
        "Bracket every ascending arpeggio, and write at the bracket which degrees it goes through. "
        "(1 ascending arpeggio) = 1 ascending arpeggio: bar 1\n"
        "Draw an arrow wherever the line takes the nearest tone of the next chord, or keeps a common one; the chord "
        "changes under 1 pair of notes. (1 arrow) = 1 arrow: bar 2\n"
        "Mark with a star where a seventh leads to a third, or a third to a seventh, as the chord changes. (1 star) = "
        "1 star: bar 2\n"
        "Put a cross over every passing tone: by step through, from one tone to another. (1 passing tone) = "
        "1 passing tone: bar 1\n");
}

TEST_CASE("what is not on the sheet is not asked for") {
  const Report report = sample_report();
  const auto excerpt = excerpt_of(report.solo, insideline::reports::BarRange{3, 3});
  REQUIRE(excerpt);
  const auto tasks = worksheet_tasks({report, {}, *excerpt});
  REQUIRE(tasks.size() == 1);
  CHECK(tasks[0].instruction == "Write under every note which degree of its chord it is. (1 note)");
}

TEST_CASE("bars that come several times are counted") {
  CHECK(bars_with_counts({3, 5, 5, 8}) == "3, 5 (2), 8");
  CHECK(bars_with_counts({}).empty());
}
