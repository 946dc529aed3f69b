#include "analyzer/labels/score_table.hpp"
#include "analyzer/labels/joint.hpp"
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

TEST_CASE("a push stands half a beat ahead at most and is held well into its chord") {
  const Reading early{.motive = Motive::chord_tone,
                      .against = insideline::Against::next,
                      .placement = insideline::Placement::anticipation};
  const auto pushes = [&](const char* melody) {
    return has(insideline::rows_for(early, chain_from("A7@0 Dm7@4", melody), 2), Row::early_push);
  };
  CHECK(pushes("C#5:3 E5:1/2 F5:3/2 D5:1"));
  CHECK_FALSE(pushes("C#5:2 E5:1 F5:3 D5:1"));      // a beat ahead
  CHECK_FALSE(pushes("C#5:3 E5:1/2 F5:3/4 D5:1"));  // hardly held over
}

TEST_CASE("an enclosure is wide where its sides are a third apart") {
  const Reading last{.motive = Motive::enclosure, .part = 1, .parts = 2};
  CHECK(has(insideline::rows_for(last, chain_from("C@0", "F4:1/2 D4:1/2 E4:1"), 1), Row::enclosure_wide));
  CHECK_FALSE(has(insideline::rows_for(last, chain_from("C@0", "F4:1/2 D#4:1/2 E4:1"), 0), Row::enclosure_wide));
}

TEST_CASE("an enclosure from above closes in quickly on a chord tone, from a half step below, wherever it begins") {
  const auto rows = [](const char* melody, std::uint8_t parts, const insideline::Beats& start_beat = 1) {
    const Reading last{.motive = Motive::enclosure, .part = static_cast<std::uint8_t>(parts - 1), .parts = parts};
    return insideline::rows_for(last, chain_from("C7@0", melody, start_beat), parts - 1U);
  };
  CHECK(has(rows("F4:1/2 D#4:1/2 E4:1", 2), Row::enclosure_from_above));
  CHECK(has(rows("F4:1/2 D#4:1/2 E4:1", 2, insideline::Beats(3, 2)), Row::enclosure_from_above));
  CHECK_FALSE(has(rows("F4:1 D#4:1/2 E4:1", 2), Row::enclosure_from_above));     // one side takes a beat
  CHECK_FALSE(has(rows("F4:1/4 D#4:1/2 E4:1", 2), Row::enclosure_from_above));   // it waits on the second
  CHECK_FALSE(has(rows("D#4:1/2 F4:1/2 E4:1", 2), Row::enclosure_from_above));   // from below
  CHECK_FALSE(has(rows("D5:1/2 B4:1/2 C#5:1", 2), Row::enclosure_from_above));   // by whole step
  CHECK_FALSE(has(rows("Eb5:1/2 C#5:1/2 D5:1", 2), Row::enclosure_from_above));  // on to no chord tone
  CHECK(has(rows("F4:1/2 D4:1/2 D#4:1/2 E4:1", 3), Row::enclosure_above_and_two_below));
  CHECK_FALSE(has(rows("F4:1/2 F#4:1/2 D#4:1/2 E4:1", 3), Row::enclosure_above_and_two_below));
}

TEST_CASE("only the first side of an enclosure can begin it on the beat") {
  const Chain chain = chain_from("C7@0", "F4:1/2 D4:1/2 D#4:1/2 E4:1");
  const auto on_beat = [&](std::uint8_t part) {
    const Reading side{.motive = Motive::enclosure, .part = part, .parts = 3};
    return has(insideline::rows_for(side, chain, part), Row::enclosure_on_beat);
  };
  CHECK(on_beat(0));
  CHECK_FALSE(on_beat(2));  // on beat two
}

TEST_CASE("a natural fourth that steps down to the major third leans, and is less of a colour") {
  const auto falls = [](const char* chord, const char* melody) {
    const Chain chain = chain_from(chord, melody);
    const bool colour = has(insideline::rows_for({.motive = Motive::tension}, chain, 1), Row::tension_fourth_to_third);
    CHECK(colour ==
          has(insideline::rows_for({.motive = Motive::appoggiatura}, chain, 1), Row::appoggiatura_fourth_to_third));
    return colour;
  };
  CHECK(falls("F7@0", "F4:1 Bb4:2 A4:1"));
  CHECK(falls("Fmaj7@0", "C5:1 Bb4:1/2 A4:1"));
  CHECK_FALSE(falls("Fm7@0", "F4:1 Bb4:2 Ab4:1"));  // the chord has no major third
  CHECK_FALSE(falls("F7@0", "F4:1 Bb4:2 C5:1"));    // it goes up
  CHECK_FALSE(falls("F7@0 Dm7@3", "F4:1 Bb4:2 A4:1"));
}

TEST_CASE("a note of two beats that is longer than its target is a poor neighbour") {
  const Reading neighbour{.motive = Motive::neighbour};
  CHECK(has(insideline::rows_for(neighbour, chain_from("F7@0", "A4:1 Bb4:2 A4:1"), 1), Row::neighbour_two_beats));
  CHECK_FALSE(has(insideline::rows_for(neighbour, chain_from("F7@0", "A4:1 Bb4:1 A4:1"), 1), Row::neighbour_two_beats));
  CHECK_FALSE(has(insideline::rows_for(neighbour, chain_from("F7@0", "A4:2 Bb4:2 A4:2"), 1), Row::neighbour_two_beats));
}

TEST_CASE("a neighbour of a chord tone is told from one of another foreign note") {
  const Reading neighbour{.motive = Motive::neighbour};
  CHECK(has(insideline::rows_for(neighbour, chain_from("C@0", "E4:1/2 F4:1/2 E4:1"), 1), Row::neighbour_of_tone));
  CHECK_FALSE(
      has(insideline::rows_for(neighbour, chain_from("C@0", "D4:1/2 C#4:1/2 D4:1"), 1), Row::neighbour_of_tone));
}

TEST_CASE("a leaning note on the change is told from one later on") {
  const Reading leans{.motive = Motive::appoggiatura};
  CHECK(
      has(insideline::rows_for(leans, chain_from("Dm7@0 Cmaj7@2", "D5:2 A4:1 G4:1"), 1), Row::appoggiatura_at_change));
  CHECK_FALSE(
      has(insideline::rows_for(leans, chain_from("Cmaj7@0", "C5:2 A4:1 G4:1"), 1), Row::appoggiatura_at_change));
}

TEST_CASE("a colour that was a tone of the chord before, or that slows the line down, says so") {
  const Reading tension{.motive = Motive::tension};
  const auto rows = insideline::rows_for(tension, chain_from("Dm7@0 Cmaj7@2", "D5:1 F5:1 A4:1 E5:1"), 2);
  CHECK(has(rows, Row::tension_was_tone));
  CHECK_FALSE(has(rows, Row::tension_slows));
  CHECK(has(insideline::rows_for(tension, chain_from("Cmaj7@0", "C5:1/2 A4:1 G4:1"), 1), Row::tension_slows));
}

TEST_CASE("an approach from above and a passing tone that lingers say so") {
  const Reading approach{.motive = Motive::approach};
  CHECK(has(insideline::rows_for(approach, chain_from("C@0", "C4:1 F4:1/2 E4:1"), 1), Row::approach_from_above));
  CHECK_FALSE(has(insideline::rows_for(approach, chain_from("C@0", "C4:1 D#4:1/2 E4:1"), 1), Row::approach_from_above));
  const Reading passing{.motive = Motive::passing};
  CHECK(has(insideline::rows_for(passing, chain_from("C@0", "E4:1 D4:3/4 C4:1"), 1), Row::passing_lingers));
  CHECK_FALSE(has(insideline::rows_for(passing, chain_from("C@0", "E4:1 D4:1/2 C4:1"), 1), Row::passing_lingers));
}

TEST_CASE("an early note that waits for its chord, a mild colour, and a wide leap outside are rows of their own") {
  const Reading early{.motive = Motive::chord_tone,
                      .against = insideline::Against::next,
                      .placement = insideline::Placement::anticipation};
  const Chain waiting = chain_from("C7@0 Fmaj7@4", "G4:2 A4:2 C5:1");
  CHECK(has(insideline::rows_for(early, waiting, 1), Row::early_waits));
  CHECK(has(insideline::rows_for(early, waiting, 1), Row::early_mild));
  CHECK_FALSE(
      has(insideline::rows_for(early, chain_from("C7@0 Fmaj7@4", "G4:2 A4:1/2 Bb4:3/2 C5:1"), 1), Row::early_waits));
  const Reading outside{.motive = Motive::unexplained};
  CHECK(has(insideline::rows_for(outside, chain_from("C@0", "C4:1 F#4:1 C4:1"), 1), Row::outside_wide_leap));
  CHECK_FALSE(has(insideline::rows_for(outside, chain_from("C@0", "E4:1 F#4:1 C4:1"), 1), Row::outside_wide_leap));
}
