#include "analyzer/section.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using insideline::analyze;
using insideline::analyze_section;
using insideline::Beats;
using insideline::Section;
using insideline::SectionKind;
using insideline::tests::harmony_from;
using insideline::tests::random_line;
using insideline::tests::solo_from;

namespace {

Section bars(int first, int last) { return {SectionKind::bars, first, last, {}}; }
Section phrase(int number) { return {SectionKind::phrase, number, number, {}}; }
Section chorus(int number) { return {SectionKind::chorus, number, number, {}}; }
Section named(const char* name) { return {SectionKind::named, 1, 1, name}; }

std::string pitches(const insideline::Solo& solo) {
  std::string text;
  for (const auto& note : solo.notes) text += (text.empty() ? "" : " ") + to_string(note.pitch);
  return text;
}

const char* const four_bars = "D4:1 F4:1 A4:1 C5:1 B4:1 G4:1 F4:1 D4:1 E4:1 G4:1 C5:2 r:2 A4:1 C5:1";
const char* const two_five_one = "Dm7@0 G7@4 Cmaj7@8 A7@14";

}  // namespace

TEST_CASE("a section has the notes that begin in it, in bars that keep their numbers") {
  const auto solo = solo_from(four_bars);
  const auto part = analyze_section(solo, harmony_from(two_five_one, solo), bars(2, 3));
  REQUIRE(part);
  CHECK(pitches(part->solo) == "B4 G4 F4 D4 E4 G4 C5");
  CHECK(part->solo.bars.front().number == 2);
  CHECK(part->solo.bars.size() == 2);
  CHECK(part->solo.notes.front().onset == Beats(4));
  CHECK(part->analysis.summary.notes == 7);
}

TEST_CASE("a phrase is a section, and so is a chorus") {
  const auto solo = solo_from(four_bars);
  auto harmony = harmony_from(two_five_one, solo);
  const auto second_phrase = analyze_section(solo, harmony, phrase(2));
  REQUIRE(second_phrase);
  CHECK(pitches(second_phrase->solo) == "A4 C5");
  CHECK(second_phrase->analysis.phrases.size() == 1);

  harmony.chorus_length = 8;
  harmony.choruses = 2;
  for (auto& chord : harmony.chords) chord.chorus = chord.onset < Beats(8) ? 1 : 2;
  const auto second_chorus = analyze_section(solo, harmony, chorus(2));
  REQUIRE(second_chorus);
  CHECK(pitches(second_chorus->solo) == "E4 G4 C5 A4 C5");
}

TEST_CASE("a lettered section is a part, and of a letter that comes twice the first is taken") {
  const auto solo = solo_from(four_bars);
  auto harmony = harmony_from(two_five_one, solo);
  harmony.sections = {{.name = "A", .onset = 0, .duration = 4, .chorus = 1, .first_bar = 1, .last_bar = 1},
                      {.name = "B", .onset = 4, .duration = 4, .chorus = 1, .first_bar = 2, .last_bar = 2},
                      {.name = "A", .onset = 8, .duration = 8, .chorus = 1, .first_bar = 3, .last_bar = 4}};
  const auto first = analyze_section(solo, harmony, named("A"));
  REQUIRE(first);
  CHECK(pitches(first->solo) == "D4 F4 A4 C5");
  CHECK(first->analysis.harmony.sections.size() == 1);
  const auto last = analyze_section(solo, harmony, named("last A"));
  REQUIRE(last);
  CHECK(pitches(last->solo) == "E4 G4 C5 A4 C5");
  CHECK_FALSE(analyze_section(solo, harmony, named("C")));
}

TEST_CASE("the first section takes the pickup along") {
  const auto solo = solo_from("B4:1 C5:4 D5:4", {}, -1);
  auto harmony = harmony_from("C@0", solo);
  harmony.sections = {{.name = "A", .onset = 0, .duration = 4, .chorus = 1, .first_bar = 1, .last_bar = 1},
                      {.name = "B", .onset = 4, .duration = 4, .chorus = 1, .first_bar = 2, .last_bar = 2}};
  const auto part = analyze_section(solo, harmony, named("A"));
  REQUIRE(part);
  CHECK(pitches(part->solo) == "B4 C5");
}

TEST_CASE("where there is nothing there is no section") {
  const auto solo = solo_from(four_bars);
  const auto harmony = harmony_from(two_five_one, solo);
  for (const Section& nowhere : {bars(9, 12), phrase(3), phrase(0), chorus(2)})
    CHECK_FALSE(analyze_section(solo, harmony, nowhere));
  const auto resting = solo_from("C4:4 r:4 C4:4");
  CHECK_FALSE(analyze_section(resting, harmony_from("C@0", resting), bars(2, 2)));
}

TEST_CASE("a note pushed ahead of the chord after the section brings that chord along") {
  const auto solo = solo_from("D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 F4:1/2 D4:1/2 B4:1/2 B4:2 G4:2");
  const auto part = analyze_section(solo, harmony_from("Dm7@0 G7@4", solo), bars(1, 1));
  REQUIRE(part);
  REQUIRE(part->analysis.harmony.chords.size() == 2);
  const auto& pushed = part->analysis.labels.back();
  CHECK(pushed.placement == insideline::Placement::anticipation);
  CHECK(pushed.governor == 1U);
  CHECK(pushed.chord == 0U);
}

TEST_CASE("the whole solo as one section is the whole solo") {
  const auto [solo, harmony] = random_line(7, 12);
  const auto whole = analyze(solo, harmony);
  const auto part = analyze_section(solo, harmony, bars(0, 1000));
  REQUIRE(part);
  REQUIRE(part->analysis.labels.size() == whole.labels.size());
  for (std::size_t i = 0; i < whole.labels.size(); ++i) {
    CHECK(part->analysis.labels[i].figure == whole.labels[i].figure);
    CHECK(part->analysis.labels[i].governor == whole.labels[i].governor);
    CHECK(part->analysis.labels[i].resolves_to == whole.labels[i].resolves_to);
  }
  CHECK(part->analysis.arpeggios.size() == whole.arpeggios.size());
  CHECK(part->analysis.connections.size() == whole.connections.size());
  CHECK(part->analysis.summary.chord_tone_share == whole.summary.chord_tone_share);
  CHECK(part->analysis.summary.chance.p_value == whole.summary.chance.p_value);
}

TEST_CASE("notes keep in every section the labels they have in the whole, and the parts add up to it") {
  const auto seed = GENERATE(range(1U, 9U));
  const auto [solo, harmony] = random_line(seed, 12);
  const auto whole = analyze(solo, harmony);
  insideline::Share sum;
  std::size_t next = 0;
  for (int first = 1; first <= 12; first += 3) {
    const auto part = analyze_section(solo, harmony, bars(first == 1 ? 0 : first, first + 2));
    if (!part) continue;
    sum.count += part->analysis.summary.chord_tone_share.count;
    sum.of += part->analysis.summary.chord_tone_share.of;
    for (const auto& label : part->analysis.labels) {
      CHECK(label.role == whole.labels[next].role);
      CHECK(label.degree == whole.labels[next].degree);
      CHECK(label.reason == whole.labels[next].reason);
      ++next;
    }
  }
  CHECK(next == whole.labels.size());
  CHECK(sum == whole.summary.chord_tone_share);
}
