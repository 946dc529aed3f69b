// Laws that hold for every chord symbol: transposing moves its tones and nothing else, and writing it
// plainly changes nothing.
#include "analyzer/harmony/academic_label.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/harmony/musicxml_kind.hpp"
#include "tests/support/chord_reading.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

namespace insideline::tests {
namespace {

using Words = std::vector<std::string>;

std::string any_of(const Words& words) { return *rc::gen::elementOf(words); }

/// A symbol put together from the parts of the trade; most read, some do not.
std::string some_symbol() {
  const Words roots = {"C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B", "C#", "Cb"};
  const Words qualities = {"", "m", "-", "maj", "M", "\u25B3", "dim", "o", "aug", "+", "\u00F8", "mMaj", "mi"};
  const Words stacks = {"", "6", "7", "9", "11", "13", "69", "7sus4", "sus2", "sus", "7alt", "5", "7913"};
  const Words changes = {"",    "b5",   "#5",   "b9",    "#9",  "(b9,#11)", "#11",
                         "b13", "add9", "(13)", "omit5", "no3", "9b",       "(maj7)"};
  const Words basses = {"", "", "", "/E", "/Bb", "/F#"};
  return any_of(roots) + any_of(qualities) + any_of(stacks) + any_of(changes) + any_of(changes) + any_of(basses);
}

Interval some_interval() {
  return *rc::gen::elementOf(std::vector<Interval>{
      {1, 1}, {1, 2}, {2, 3}, {2, 4}, {3, 5}, {4, 7}, {5, 8}, {5, 9}, {6, 10}, {6, 11}, {7, 12}, {-1, -2}, {-8, -14}});
}

std::vector<int> classes(const Chord& chord, const std::vector<Degree>& degrees, int semitones) {
  std::vector<int> result;
  for (const Degree& degree : degrees)
    result.push_back((pitch_class(note_at(chord.root, degree)) + semitones + 24) % 12);
  return result;
}

}  // namespace

TEST_CASE("transposing a symbol transposes its tones and nothing else") {
  CHECK(rc::check([] {
    const auto reading = parse_chord_symbol(some_symbol());
    RC_PRE((reading.has_value() && reading->has_value()));  // one expression: RC_PRE would evaluate both sides
    const Chord& chord = **reading;
    const Interval by = some_interval();
    const Chord moved = transposed(chord, by);
    RC_ASSERT(moved.root == transposed(chord.root, by));
    RC_ASSERT(moved.tones == chord.tones);
    RC_ASSERT(moved.tensions == chord.tensions);
    RC_ASSERT(moved.avoid == chord.avoid);
    RC_ASSERT(moved.bass.has_value() == chord.bass.has_value());
    RC_ASSERT(classes(moved, moved.tones, 0) == classes(chord, chord.tones, by.semitones));
    RC_PRE((moved.root.alter >= -2 && moved.root.alter <= 2 && (!moved.bass || std::abs(moved.bass->alter) <= 2)));
    RC_ASSERT(same_chord(chord_from(moved.symbol), moved));
  }));
}

TEST_CASE("a symbol written plainly, as a label or as MusicXML is the same chord") {
  CHECK(rc::check([] {
    const auto reading = parse_chord_symbol(some_symbol());
    RC_PRE((reading.has_value() && reading->has_value()));  // one expression: RC_PRE would evaluate both sides
    const Chord& chord = **reading;
    const std::string plain = canonical_symbol(chord);
    RC_ASSERT(same_chord(chord_from(plain), chord));
    RC_ASSERT(canonical_symbol(chord_from(plain)) == plain);
    RC_ASSERT(chord_from(academic_label(chord)).tones == chord.tones);
    const auto back = chord_from_musicxml(musicxml_from_chord(chord));
    RC_ASSERT((back.has_value() && back->has_value() && same_chord(**back, chord)));
  }));
}

TEST_CASE("any degrees at all make a chord that can be written and read again") {
  CHECK(rc::check([] {
    MusicxmlChord element;
    element.kind = *rc::gen::element<std::string>("major", "minor", "dominant", "suspended-fourth", "French", "other");
    const auto count = *rc::gen::inRange(1, 5);
    for (int i = 0; i < count; ++i)
      element.degrees.push_back({*rc::gen::inRange(1, 14), *rc::gen::inRange(-1, 2),
                                 *rc::gen::element(DegreeChange::add, DegreeChange::alter, DegreeChange::subtract)});
    const auto reading = chord_from_musicxml(element);
    RC_PRE(reading.has_value());
    RC_ASSERT(same_chord(chord_from(canonical_symbol(**reading)), **reading));
    const auto back = chord_from_musicxml(musicxml_from_chord(**reading));
    RC_ASSERT((back.has_value() && back->has_value() && same_chord(**back, **reading)));
  }));
}

}  // namespace insideline::tests
