// The worked examples of non-chord tones of the open textbooks and of public-domain scores
// (tests/published/nct_examples.tsv names the source of each).
#include "tests/support/label_file.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/folders.hpp"

#include <algorithm>
#include <string>

#include <catch2/catch.hpp>

using insideline::NoteLabel;
using insideline::tests::LabelledExample;

namespace {

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
    for (std::size_t i = 0; i < labels.size(); ++i) {
      INFO(example.id << " note " << i + 1 << ": wanted " << example.codes[i] << ", got "
                      << insideline::tests::code_of(labels[i]));
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
                 reading.probability > 0.0001;
        }));
      }
    }
  }
}
