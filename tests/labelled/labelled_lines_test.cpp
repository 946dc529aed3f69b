// Agreement with lines and labels that were written for this project (tests/labelled/README.md). This is a guard
// against regressions, not outside evidence.
#include "tests/support/label_file.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/folders.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <catch2/catch.hpp>

namespace {

struct Agreement {
  int notes = 0;
  int roles = 0;
  int labels = 0;
};

Agreement agreement_with(const std::string& file) {
  Agreement sum;
  for (const auto& example : insideline::tests::read_label_file(std::string(INSIDELINE_TESTS "/labelled/") + file)) {
    const auto labels =
        insideline::label_notes(example.solo, example.harmony, insideline::find_phrases(example.solo, example.harmony));
    for (std::size_t i = 0; i < labels.size(); ++i) {
      const auto& acceptable = example.acceptable[i];
      const bool role = std::any_of(acceptable.begin(), acceptable.end(),
                                    [&](const auto& expected) { return expected.role == labels[i].role; });
      ++sum.notes;
      sum.roles += role ? 1 : 0;
      sum.labels += agrees(labels[i], acceptable) ? 1 : 0;
    }
  }
  return sum;
}

/// "h14 note 4: PT" for each note of the file that is labelled in no way its line accepts.
std::vector<std::string> missed_in(const std::string& file) {
  std::vector<std::string> missed;
  for (const auto& example : insideline::tests::read_label_file(std::string(INSIDELINE_TESTS "/labelled/") + file)) {
    const auto labels =
        insideline::label_notes(example.solo, example.harmony, insideline::find_phrases(example.solo, example.harmony));
    for (std::size_t i = 0; i < labels.size(); ++i)
      if (!agrees(labels[i], example.acceptable[i]))
        missed.push_back(fmt::format("{} note {}: {}", example.id, i + 1, insideline::tests::code_of(labels[i])));
  }
  return missed;
}

}  // namespace

TEST_CASE("the teacher's lines that the fit sees keep their labels, though real playing has its say as well") {
  const Agreement tuning = agreement_with("tuning.tsv");
  REQUIRE(tuning.notes >= 150);
  CHECK(tuning.roles >= 0.985 * tuning.notes);
  CHECK(tuning.labels >= 0.975 * tuning.notes);
}

TEST_CASE("lines never used for tuning agree with their labels in 95 of 100 roles and 90 of 100 labels") {
  const Agreement held_out = agreement_with("held_out.tsv");
  REQUIRE(held_out.notes >= 150);
  CHECK(held_out.roles >= 0.95 * held_out.notes);
  CHECK(held_out.labels >= 0.90 * held_out.notes);
}

TEST_CASE("the notes missed in lines never used for tuning are known, each with the reason it is heard otherwise") {
  const std::vector<std::string> known = {
      "h17 note 6: CT:b3@next",  // the escape tone Eb is the third of Cm7 as well, half a beat before it
      "h24 note 5: T:b9",        // held for two beats and left by leap, as a colour would be; Bbmaj7 has no b9
      "h26 note 9: T:13",        // G over Bbmaj7, left by leap, is a sixth before it is the upper side of F
  };
  CHECK(missed_in("held_out.tsv") == known);
}

TEST_CASE(
    "longer lines that no fit saw agree with one of two readings in 92 of 100 roles and 97 of 100 accepted labels") {
  int notes = 0;
  int roles = 0;
  int accepted = 0;
  for (const auto& example : insideline::tests::read_label_file(INSIDELINE_TESTS "/labelled/lines_held_out.tsv")) {
    const auto labels =
        insideline::label_notes(example.solo, example.harmony, insideline::find_phrases(example.solo, example.harmony));
    for (std::size_t i = 0; i < labels.size(); ++i) {
      const auto& first = example.readers[0].notes[i].acceptable;
      const auto& second = example.readers[1].notes[i].acceptable;
      ++notes;
      roles += first.front().role == labels[i].role ? 1 : 0;
      accepted += agrees(labels[i], first) || agrees(labels[i], second) ? 1 : 0;
    }
  }
  REQUIRE(notes >= 400);
  CHECK(roles >= 0.92 * notes);
  CHECK(accepted >= 0.97 * notes);
}
