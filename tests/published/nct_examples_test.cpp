// The worked examples of non-chord tones of the open textbooks and of public-domain scores
// (tests/published/nct_examples.tsv names the source of each).
#include "tests/support/label_file.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/folders.hpp"

#include <algorithm>
#include <map>
#include <string>

#include <catch2/catch.hpp>

using insideline::NoteLabel;
using insideline::tests::LabelledExample;

namespace {

/// Where the textbooks disagree the first reading is one school's and the example's own label must stand
/// among the alternatives. E04: leap in, step out on a weak beat is an incomplete neighbour, here called approach
/// tone, for Open Music Theory, an appoggiatura for Butterfield and Hutchinson (E19, E22).
const std::map<std::string, std::size_t> read_by_another_school = {{"E04", 1}};

bool stands_among_alternatives(const NoteLabel& label, const insideline::tests::ExpectedLabel& expected) {
  return std::any_of(label.alternatives.begin(), label.alternatives.end(), [&](const insideline::Alternative& other) {
    return other.role == expected.role && (!expected.figure || other.figure == *expected.figure);
  });
}

std::vector<NoteLabel> labels_of(const LabelledExample& example) {
  return insideline::label_notes(example.solo, example.harmony,
                                 insideline::find_phrases(example.solo, example.harmony));
}

}  // namespace

TEST_CASE("every worked example of the textbooks gets the label its source gives it") {
  const auto examples = insideline::tests::read_label_file(INSIDELINE_TESTS "/published/nct_examples.tsv");
  REQUIRE(examples.size() == 44);
  for (const LabelledExample& example : examples) {
    const auto labels = labels_of(example);
    const auto other_school = read_by_another_school.find(example.id);
    for (std::size_t i = 0; i < labels.size(); ++i) {
      INFO(example.id << " note " << i + 1 << ": wanted " << example.codes[i] << ", got "
                      << insideline::tests::code_of(labels[i]));
      if (other_school != read_by_another_school.end() && other_school->second == i)
        CHECK(stands_among_alternatives(labels[i], example.acceptable[i].front()));
      else
        CHECK(agrees(labels[i], example.acceptable[i]));
    }
  }
}

TEST_CASE("where a source allows two readings both are weighed") {
  for (const LabelledExample& example :
       insideline::tests::read_label_file(INSIDELINE_TESTS "/published/nct_examples.tsv")) {
    const auto phrases = insideline::find_phrases(example.solo, example.harmony);
    for (std::size_t i = 0; i < example.acceptable.size(); ++i) {
      if (example.acceptable[i].size() < 2) continue;
      const auto readings = insideline::explain_note(example.solo, example.harmony, phrases, i);
      for (const auto& expected : example.acceptable[i]) {
        INFO(example.id << " note " << i + 1 << " " << example.codes[i]);
        CHECK(std::any_of(readings.begin(), readings.end(), [&](const insideline::ExplainedReading& reading) {
          return reading.role == expected.role && (!expected.figure || reading.figure == *expected.figure) &&
                 reading.probability > 0.001;
        }));
      }
    }
  }
}
