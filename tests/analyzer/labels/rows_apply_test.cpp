// Where the reasons for and against a tension apply, and where they must not.
#include "analyzer/labels/row_choice.hpp"

#include "analyzer/labels/note_context.hpp"
#include "analyzer/labels/score_table.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Chain;
using insideline::Motive;
using insideline::Reading;
using insideline::Row;

namespace {

bool row_applies(Motive motive, Row row, const std::string& chords, const std::string& melody, std::size_t note) {
  const auto solo = insideline::tests::solo_from(melody);
  const auto harmony = insideline::tests::harmony_from(chords, solo);
  bool applies = false;
  insideline::for_each_chain(solo, harmony, insideline::find_phrases(solo, harmony), {}, [&](const Chain& chain) {
    for (std::size_t i = 0; i < chain.size(); ++i) {
      if (chain[i].note != note) continue;
      const auto rows = insideline::rows_for(Reading{.motive = motive}, chain, i);
      applies = std::ranges::find(rows, row) != rows.end();
    }
  });
  return applies;
}

}  // namespace

TEST_CASE("a reason for a tension applies where it says, and nowhere else") {
  const auto [row, melody, note, applies] = GENERATE(table<Row, std::string, std::size_t, bool>({
      {Row::tension_left_by_leap, "G4:1 D5:1 G4:2", 1, true},
      {Row::tension_left_by_leap, "C4:1 D4:1 E4:2", 1, false},
      {Row::tension_reached_by_leap, "G4:1 D5:1 E5:2", 1, true},
      {Row::tension_reached_by_leap, "C5:1 D5:1 E5:2", 1, false},
      {Row::tension_ends_phrase, "C4:1 E4:1 D4:2", 2, true},
      {Row::tension_ends_phrase, "C4:1 D4:1 E4:2", 1, false},
      {Row::tension_after_rest, "D4:1 E4:1 C4:2", 0, true},
      {Row::tension_after_rest, "C4:1 D4:1 E4:2", 1, false},
      {Row::tension_held, "C4:1/2 E4:1/2 D4:2 E4:1", 2, true},
      {Row::tension_held, "C4:1 D4:1/4 E4:11/4", 1, false},
      {Row::tension_on_beat, "C4:1 D4:1 E4:2", 1, true},
      {Row::tension_on_beat, "C4:1/2 D4:1/2 E4:3", 1, false},
  }));
  INFO(insideline::score_row(row).name << ": " << melody);
  CHECK(row_applies(Motive::tension, row, "C@0", melody, note) == applies);
}

TEST_CASE("a tone of the next chord, held into it, is no tension that is left or ends anything") {
  for (const Row row : {Row::tension_left_by_leap, Row::tension_ends_phrase, Row::tension_held}) {
    INFO(insideline::score_row(row).name);
    CHECK_FALSE(row_applies(Motive::tension, row, "C@0 Dm@2", "C4:1/2 E4:1/2 D4:2 A4:1", 2));
  }
}

TEST_CASE("a neighbour or passing tone on the beat is told apart from one off it") {
  for (const auto& [motive, row] :
       {std::pair{Motive::neighbour, Row::neighbour_on_beat}, std::pair{Motive::passing, Row::passing_on_beat}}) {
    INFO(insideline::score_row(row).name);
    CHECK(row_applies(motive, row, "C@0", "E4:1 D4:1 E4:2", 1));
    CHECK_FALSE(row_applies(motive, row, "C@0", "E4:1/2 D4:1/2 E4:3", 1));
  }
}
