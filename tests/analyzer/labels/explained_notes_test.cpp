// What is told about a note when somebody asks for the reasons.
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/labelled.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::ExplainedReading;
using insideline::tests::labelled;
using insideline::tests::LabelledLine;

namespace {

std::vector<ExplainedReading> told_about(const LabelledLine& line, std::size_t note) {
  return insideline::explain_note(line.solo, line.harmony, insideline::find_phrases(line.solo, line.harmony), note);
}

bool names_row(const ExplainedReading& reading, const std::string& name) {
  return std::ranges::any_of(reading.rows, [&](const auto& row) { return row.name == name; });
}

}  // namespace

TEST_CASE("the first note of a line is explained by what it is itself") {
  const LabelledLine line = labelled("C@0", "D4:2 E4:2");
  const auto readings = told_about(line, 0);
  REQUIRE_FALSE(readings.empty());
  double sum = 0.0;
  for (const ExplainedReading& reading : readings) {
    sum += reading.probability;
    for (const char* between : {"second passing tone", "lands on a tension", "leads to a note on its way",
                                "starts from a note on its way", "goes back to the old chord"})
      CHECK_FALSE(names_row(reading, between));
  }
  CHECK(sum == Approx(1.0));
  CHECK(std::ranges::any_of(readings, [](const auto& reading) { return names_row(reading, "tension begins"); }));
}

TEST_CASE("a later note is explained by the note before it as well") {
  const auto readings = told_about(labelled("C@0", "C4:1/2 D4:1/2 D#4:1/2 E4:1/2"), 2);
  CHECK(std::ranges::any_of(readings, [](const auto& reading) { return names_row(reading, "second passing tone"); }));
}
