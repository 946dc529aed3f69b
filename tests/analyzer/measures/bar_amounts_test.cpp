#include "analyzer/measures/bar_amounts.hpp"

#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

using insideline::BarAmount;
using insideline::BarSeries;
using insideline::Material;
using insideline::quotient;
using insideline::tests::analysed;

namespace {

bool is_counted(const Material&, const insideline::HeardNote& note) { return counts(note); }
bool is_root(const Material& material, const insideline::HeardNote& note) {
  return material.analysis.labels[note.note].figure == insideline::Figure::root;
}

}  // namespace

TEST_CASE("a note counts for the bar it is struck in, with all of its length") {
  const auto line = analysed("C@0 G7@4", "C4:2 E4:1 G4:3 B4:1 G4:1");
  const Material material(line.solo, line.analysis);
  CHECK(share_of_notes<is_counted, is_root>(material) == BarSeries{{1, 3}, {1, 2}});
  CHECK(share_of_time<is_counted, is_root>(material) == BarSeries{{2, 6}, {1, 2}});
  CHECK(notes_a_bar(material) == BarSeries{{3, 1}, {2, 1}});
  CHECK(time_filled(material) == BarSeries{{6, 4}, {2, 4}});
}

TEST_CASE("a pickup is the part of a bar that it is") {
  const auto line = analysed("C@1", "G4:1 C5:4", {}, -1);
  const Material material(line.solo, line.analysis);
  CHECK(notes_a_bar(material) == BarSeries{{1, 0.25}, {1, 1}});
}

TEST_CASE("an arpeggio counts for the bar of its first note") {
  const auto line = analysed("Cmaj7@0", "r:3 C4:1/2 E4:1/2 G4:1/2 B4:1/2 r:3");
  const Material material(line.solo, line.analysis);
  REQUIRE(line.analysis.arpeggios.size() == 1);
  CHECK(arpeggios_a_bar(material) == BarSeries{{1, 1}, {0, 1}});
  CHECK(notes_an_arpeggio(material) == BarSeries{{4, 1}, {0, 0}});
}

TEST_CASE("phrases count for the bar that they begin in") {
  const auto line = analysed("C@0", "C4:1 D4:1 r:2 r:2 F4:1 G4:1");
  const Material material(line.solo, line.analysis);
  REQUIRE(line.analysis.phrases.size() == 2);
  CHECK(notes_a_phrase(material) == BarSeries{{2, 1}, {2, 1}});
  CHECK(phrases_that_end_on_a_chord_tone(material).back() == BarAmount{1, 1});
}

TEST_CASE("the thread counts its steps in semitones") {
  const auto line = analysed("C@0 G7@4 C@8", "E4:4 F4:4 E4:4");
  const Material material(line.solo, line.analysis);
  CHECK(thread_step(material) == BarSeries{{0, 0}, {1, 1}, {1, 1}});
}

TEST_CASE("above chance is the strict share less what the turns give") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const auto random = insideline::tests::random_line(seed, 16);
    const auto line = analysed(random.solo, random.harmony);
    const auto& chance = line.analysis.summary.chance;
    const auto above = quotient(above_chance(Material(line.solo, line.analysis)));
    REQUIRE(above);
    CHECK(*above == Approx(chance.actual - chance.mean.value()));
  }
}

TEST_CASE("one chord all through leaves nothing to turn") {
  const auto line = analysed("C@0", "C4:4 E4:4 G4:4 C4:4");
  CHECK_FALSE(quotient(above_chance(Material(line.solo, line.analysis))));
}

TEST_CASE("the wait for a guide tone runs from the arrival of the chord") {
  const auto line = analysed("C7@0 F7@4", "C4:1 E4:3 F4:3 A4:1");
  CHECK(wait_for_a_guide_tone(Material(line.solo, line.analysis)) == BarSeries{{1, 1}, {3, 1}});
}

TEST_CASE("chords are guessed as the summary says") {
  const auto random = insideline::tests::random_line(9, 16);
  const auto line = analysed(random.solo, random.harmony);
  const Material material(line.solo, line.analysis);
  CHECK(quotient(chords_guessed(material)) == Approx(ratio(line.analysis.heard.first_rank).value()));
  CHECK(quotient(bits_a_chord(material)) == Approx(line.analysis.heard.bits_per_chord));
}
