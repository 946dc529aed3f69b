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

TEST_CASE("a note is as sure as its likeliest label, and what could be heard two ways is not sure") {
  const LabelledLine line = labelled("C@0", "G4:1 D4:1 E4:2");
  const auto& doubtful = line.labels.at(1);
  CHECK(doubtful.confidence > 0.0);
  CHECK(doubtful.confidence < 1.0);
  CHECK_FALSE(doubtful.alternatives.empty());
  for (const auto& other : doubtful.alternatives) CHECK(other.probability <= doubtful.confidence);
}

TEST_CASE("a grace note within a whole step approaches, from further off it stands for itself") {
  using insideline::Figure;
  using insideline::Role;
  const auto [melody, role, figure] = GENERATE(table<std::string, Role, Figure>({
      {"E4:0 G4:4", Role::chord_tone, Figure::third},
      {"F#4:0 G4:4", Role::non_chord_tone, Figure::approach_tone},
      {"F4:0 G4:4", Role::non_chord_tone, Figure::approach_tone},  // a whole step below
      {"A4:0 G4:4", Role::non_chord_tone, Figure::approach_tone},  // and above
      {"D4:0 G4:4", Role::tension, Figure::ninth},                 // too far for an approach
      {"Db4:0 G4:4", Role::outside, Figure::unexplained},
  }));
  INFO(melody);
  const auto label = labelled("Cmaj7@0", melody).labels.at(0);
  CHECK(label.role == role);
  CHECK(label.figure == figure);
  CHECK(label.resolves_to.has_value() == (figure == Figure::approach_tone));
}

TEST_CASE("two notes on one side of a tone do not surround it") {
  for (const char* melody : {"C4:1 D#4:1/2 D4:1/2 E4:2", "C4:1 D4:1/2 D#4:1/2 E4:2", "C5:1 F#4:1/2 F4:1/2 E4:2"}) {
    const LabelledLine line = labelled("C@0", melody);
    INFO(melody);
    CHECK(line.labels.at(1).figure != insideline::Figure::enclosure);
    CHECK(line.labels.at(2).figure != insideline::Figure::enclosure);
  }
}
