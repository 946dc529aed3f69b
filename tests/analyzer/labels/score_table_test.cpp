#include "analyzer/labels/score_table.hpp"
#include "analyzer/labels/row_choice.hpp"

#include "analyzer/phrases.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/label_file.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Chain;
using insideline::Motive;
using insideline::Reading;
using insideline::Row;

namespace {

std::vector<Chain> chains_from(const insideline::Solo& solo, const insideline::Harmony& harmony) {
  std::vector<Chain> chains;
  insideline::for_each_chain(solo, harmony, insideline::find_phrases(solo, harmony), {},
                             [&](const Chain& chain) { chains.push_back(chain); });
  return chains;
}

void collect_rows(const std::vector<Chain>& chains, std::set<Row>& seen) {
  for (const Chain& chain : chains) {
    std::vector<Reading> before;
    for (std::size_t i = 0; i < chain.size(); ++i) {
      std::vector<Reading> readings;
      insideline::add_possible_readings(readings, chain, i, insideline::Hearing::as_heard);
      for (const Reading& to : readings) {
        for (const Row row : insideline::rows_for(to, chain, i)) seen.insert(row);
        for (const Reading& from : before)
          for (const Row row : insideline::rows_between(from, to, chain, i)) seen.insert(row);
      }
      before = readings;
    }
  }
}

/// The first chain of a line.
Chain chain_from(const std::string& chords, const std::string& melody, const insideline::Beats& start_beat = 1) {
  const auto solo = insideline::tests::solo_from(melody, {}, start_beat);
  return chains_from(solo, insideline::tests::harmony_from(chords, solo)).front();
}

bool has(const std::vector<Row>& rows, Row row) { return std::find(rows.begin(), rows.end(), row) != rows.end(); }

}  // namespace

TEST_CASE("every row of the score table speaks in some line") {
  std::set<Row> seen;
  for (const char* file :
       {"/published/nct_examples.tsv", "/labelled/tuning.tsv", "/labelled/held_out.tsv", "/labelled/lines.tsv"})
    for (const auto& example : insideline::tests::read_label_file(std::string(INSIDELINE_TESTS) + file))
      collect_rows(chains_from(example.solo, example.harmony), seen);
  for (const auto& [chords, melody] : std::vector<std::pair<std::string, std::string>>{
           {"G7@0 C@2", "B4:3/2 C5:1/4 r:5/4 E5:1"},  // early, before a rest
           {"Ebm@0 Cmaj7@2", "Eb5:3/2 D5:1/2 D5:2"},  // early tension
           {"Eb7@0", "Bb4:1/3 Db5:1/3 F5:1/3 Fb5:1/2 Eb5:1"},
           {"Cmaj7@0", "G4:1/2 Ab4:2 G4:1"}}) {  // neighbours slowly
    const auto solo = insideline::tests::solo_from(melody);
    collect_rows(chains_from(solo, insideline::tests::harmony_from(chords, solo)), seen);
  }
  for (std::size_t i = 0; i < static_cast<std::size_t>(Row::count); ++i) {
    const auto row = static_cast<Row>(i);
    INFO(score_row(row).name);
    CHECK(seen.count(row) == 1);
  }
}

TEST_CASE("every row has a name and says why, and no two share a name") {
  std::set<std::string> names;
  for (std::size_t i = 0; i < static_cast<std::size_t>(Row::count); ++i) {
    const auto& entry = insideline::score_row(static_cast<Row>(i));
    CHECK(entry.row == static_cast<Row>(i));
    CHECK(names.insert(std::string(entry.name)).second);
    CHECK(entry.why.size() > 10);
  }
}

TEST_CASE("a passing tone on the way to the beat is unaccented, on the beat it is accented") {
  const Reading passing{.motive = Motive::passing};
  const Chain weak = chain_from("C@0", "E4:1/2 D4:1/2 C4:1");
  CHECK(has(insideline::rows_for(passing, weak, 1), Row::passing_unaccented));
  const Chain strong = chain_from("C@0", "E4:1/2 D4:1/2 C4:1", insideline::Beats(3, 2));
  CHECK(has(insideline::rows_for(passing, strong, 1), Row::passing_accented));
  CHECK_FALSE(has(insideline::rows_for(passing, strong, 1), Row::passing_unaccented));
}

TEST_CASE("a score is the sum of the rows that apply") {
  const Chain chain = chain_from("G7@0", "B4:1 E5:2 D5:1");
  const Reading tension{.motive = Motive::tension};
  int sum = 0;
  for (const Row row : insideline::rows_for(tension, chain, 1)) sum += insideline::score_value(row);
  CHECK(insideline::reading_score(tension, chain, 1) == sum);
  CHECK(has(insideline::rows_for(tension, chain, 1), Row::tension_held));
}
