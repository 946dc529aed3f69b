#include "io/changes/rewritten_chart.hpp"

#include "analyzer/key_moves.hpp"
#include "io/changes/changes_file.hpp"
#include "io/read_result.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <string_view>

using insideline::Accidentals;
using insideline::Changes;
using insideline::ChordSpan;
using insideline::Interval;
using insideline::interval_between;
using insideline::Key;
using insideline::same_chord;
using insideline::usual_interval;
using insideline::io::ChartRewriting;
using insideline::io::parse_changes;
using insideline::io::rewritten_chart;

namespace {

std::string moved(std::string_view text, const Interval& by) { return rewritten_chart(text, "a.changes", {by, {}}); }

/// Roots, basses and kinds by what sounds.
bool sound_alike(const Changes& one, const Changes& other, int semitones) {
  const auto pitch_above = [&](const insideline::NoteName& name) { return (pitch_class(name) + semitones + 120) % 12; };
  return std::ranges::equal(one.spans, other.spans, [&](const ChordSpan& a, const ChordSpan& b) {
    if (a.onset != b.onset || a.duration != b.duration || a.chord.has_value() != b.chord.has_value()) return false;
    if (!a.chord) return true;
    const bool same_bass = a.chord->bass.has_value() == b.chord->bass.has_value() &&
                           (!a.chord->bass || pitch_above(*a.chord->bass) == pitch_class(*b.chord->bass));
    return a.chord->tones == b.chord->tones && pitch_above(a.chord->root) == pitch_class(b.chord->root) && same_bass;
  });
}

/// A chart as people type it: sections, a repeat with endings, dots, %, N.C., comments and slash chords.
std::string random_chart() {
  static constexpr std::array roots{"C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B", "C#"};
  static constexpr std::array kinds{"maj7", "7", "m7", "m7b5", "dim7", "7(b9)", "6", "7alt", "sus4", "m", "", "7#11"};
  const auto chord = [] {
    const std::string root = *rc::gen::elementOf(roots);
    const std::string bass = *rc::gen::elementOf(roots);
    std::string symbol = root + *rc::gen::elementOf(kinds);
    const bool other_tone =
        pitch_class(*insideline::parse_note_name(root)) != pitch_class(*insideline::parse_note_name(bass));
    if (other_tone && *rc::gen::inRange(0, 6) == 0) symbol += "/" + bass;
    return symbol;
  };
  const auto bar = [&] {
    switch (*rc::gen::inRange(0, 5)) {
      case 0: return chord() + " " + chord();
      case 1: return chord() + " . . " + chord();
      case 2: return std::string("N.C.");
      case 3: return chord() + "   ";
      default: return chord();
    }
  };
  std::string text = "title: Net Loft\nkey: " +
                     to_string(*rc::gen::map(rc::gen::inRange(-6, 7),
                                             [](int fifths) {
                                               return Key{fifths, false};
                                             })) +
                     "\n\n# Bb7 in a comment stays\n";
  text += "[A] |: " + bar() + " | " + bar() + " |1. " + bar() + " :|2. " + bar() + " |\n";
  text += "[B] | " + bar() + " | " + chord() + " | % |\n";
  return text;
}

}  // namespace

TEST_CASE("what a person typed stays as it was typed, in another key") {
  CHECK(moved("3/4\n1. | F7// | C7 x2 |\n---\n4. | ./. |\n", usual_interval(2)) ==
        "3/4\n1. | G7// | D7 x2 |\n---\n4. | ./. |\n");
}

TEST_CASE("a chart in another key keeps everything else as it was typed") {
  const std::string text =
      "title: Lantern Street  # in Eb\nkey: Eb\nmeter: 4/4\nform: A A B\n\n# Bb7 is not the dominant here\n"
      "[A] |: Ebmaj7     | Cm7 . . F7/A | %  |1. Bb7 :|2. N.C. |\n"
      "B: | (Gm7, C7) | Fm7. Bb7. |\n";
  CHECK(moved(text, interval_between(Key{-3}, Key{2})) ==
        "title: Lantern Street  # in Eb\nkey: D\nmeter: 4/4\nform: A A B\n\n# Bb7 is not the dominant here\n"
        "[A] |: Dmaj7      | Bm7 . . E7/G# | % |1. A7 :|2. N.C.  |\n"
        "B: | (F#m7, B7) | Em7. A7. |\n");
}

TEST_CASE("columns stay where a longer symbol has room") {
  CHECK(moved("| D7    | G7  |\n", usual_interval(1)) == "| Eb7   | Ab7 |\n");
  CHECK(moved("| Eb7   | Ab7 |\n", usual_interval(-1)) == "| D7    | G7  |\n");
  CHECK(moved("| Am7 D7 | G7    | C7  |\n", usual_interval(1)) == "| Bbm7 Eb7 | Ab7 | Db7 |\n");
  CHECK(moved("| Eb7 | Ab7 |\n", usual_interval(-1)) == "| D7 | G7 |\n");
}

TEST_CASE("line ends, tabs and a mode that is spelled out are kept, and a small root becomes a capital") {
  CHECK(moved("key: c minor\r\n|\tcm7 | fm7 |\r\n", usual_interval(2)) == "key: D minor\r\n|\tDm7 | Gm7 |\r\n");
  CHECK(moved("key: B♭m\n| bb7 |\n", usual_interval(2)) == "key: Cm\n| C7 |\n");
}

TEST_CASE("a title on the first line and bar numbers are no chords") {
  CHECK(moved("Dock Blues\n1 | C7 | F7 |\n3 | C7 | % |\n", usual_interval(5)) ==
        "Dock Blues\n1 | F7 | Bb7 |\n3 | F7 | % |\n");
}

TEST_CASE("a chart is spelled with flats or with sharps") {
  CHECK(rewritten_chart("| C#m7 F#7 | Bmaj7 |\n", "a", {{}, Accidentals::flats}) == "| Dbm7 Gb7 | Bmaj7 |\n");
  CHECK(rewritten_chart("key: F#\n| F#maj7 | B7 |\n", "a", {{1, 0}, Accidentals::flats}) ==
        "key: Gb\n| Gbmaj7 | Cb7 |\n");
}

TEST_CASE("a file that is no chart is refused as everywhere") {
  CHECK_THROWS_AS(moved("| Q7 |\n", usual_interval(1)), insideline::io::ReadError);
}

TEST_CASE("whatever the chart, moved by so many half steps it sounds so many half steps higher") {
  CHECK(rc::check("moved", [] {
    const std::string text = random_chart();
    const int semitones = *rc::gen::inRange(1, 12);
    const std::string there = moved(text, usual_interval(semitones));
    RC_LOG() << text << there;
    RC_ASSERT(sound_alike(parse_changes(text, "a"), parse_changes(there, "b"), semitones));
  }));
}

TEST_CASE("up by some half steps and up by the rest of the octave, the chart sounds as before") {
  CHECK(rc::check("round", [] {
    const std::string text = random_chart();
    const int semitones = *rc::gen::inRange(1, 12);
    const std::string back = moved(moved(text, usual_interval(semitones)), usual_interval(12 - semitones));
    RC_ASSERT(sound_alike(parse_changes(text, "a"), parse_changes(back, "b"), 0));
  }));
}

TEST_CASE("there and back by the same interval the chords are what they were, letter for letter") {
  CHECK(rc::check("there and back", [] {
    const std::string text = random_chart();
    const Key from = parse_changes(text, "a").key.value();
    const Key to{*rc::gen::inRange(-6, 7), false};
    const std::string there = moved(text, interval_between(from, to));
    const Changes back = parse_changes(moved(there, interval_between(to, from)), "b");
    const Changes once = parse_changes(text, "a");
    RC_ASSERT(back.key == once.key);
    // A root with a double accidental is written plainly on the way, and comes back by its other name.
    const Interval by = interval_between(from, to);
    for (std::size_t i = 0; i < once.spans.size(); ++i) {
      if (!once.spans[i].chord) continue;
      const insideline::Chord& chord = *once.spans[i].chord;
      const bool plain = std::abs(transposed(chord.root, by).alter) < 2 &&
                         (!chord.bass || std::abs(transposed(*chord.bass, by).alter) < 2);
      if (plain) RC_ASSERT(same_chord(chord, *back.spans[i].chord));
    }
  }));
}
