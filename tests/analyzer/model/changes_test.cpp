#include "analyzer/model/changes.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Changes;
using insideline::Chord;
using insideline::ChordSpan;
using insideline::Harmony;
using insideline::Interval;
using insideline::Key;
using insideline::Meter;
using insideline::parse_note_name;
using insideline::SoundingChord;

namespace {

Chord major_triad(const std::string& root) {
  Chord chord;
  chord.symbol = root;
  chord.root = parse_note_name(root).value();
  chord.tones = {{1, 0}, {3, 0}, {5, 0}};
  return chord;
}

SoundingChord sounding(const std::string& root, const Beats& onset, const Beats& duration, int stretch) {
  return {.chord = major_triad(root), .onset = onset, .duration = duration, .bar = 1, .chorus = 1, .stretch = stretch};
}

/// C, C again, F, a gap of N.C., G.
Harmony harmony_with_a_gap() {
  Harmony harmony;
  harmony.chords = {sounding("C", 0, 4, 0), sounding("C", 4, 4, 0), sounding("F", 8, 2, 1), sounding("G", 12, 4, 2)};
  return harmony;
}

std::string roots(const Changes& changes) {
  std::string text;
  for (const ChordSpan& span : changes.spans)
    text += (text.empty() ? "" : " ") + (span.chord ? to_string(span.chord->root) : "N.C.");
  return text;
}

Changes chart(const std::optional<Key>& key, const std::vector<std::string>& chord_roots) {
  Changes changes;
  changes.key = key;
  Beats now;
  for (const std::string& root : chord_roots) {
    std::optional<Chord> chord;
    if (root != "N.C.") chord = major_triad(root);
    changes.spans.push_back({.chord = chord, .onset = now, .duration = 4});
    changes.bars.push_back({.onset = now, .length = 4, .section = {}});
    now += 4;
  }
  return changes;
}

}  // namespace

TEST_CASE("a meter knows its bar and its beat") {
  const auto [meter, bar, beat, text] = GENERATE(table<Meter, Beats, Beats, std::string>({
      {{4, 4}, 4, 1, "4/4"},
      {{3, 4}, 3, 1, "3/4"},
      {{6, 8}, 3, Beats(1, 2), "6/8"},
      {{2, 2}, 4, 2, "2/2"},
      {{7, 16}, Beats(7, 4), Beats(1, 4), "7/16"},
  }));
  CHECK(bar_length(meter) == bar);
  CHECK(beat_length(meter) == beat);
  CHECK(to_string(meter) == text);
}

TEST_CASE("a key is named by its signs") {
  CHECK(to_string(Key{-3, false}) == "Eb");
  CHECK(to_string(Key{-3, true}) == "C minor");
  CHECK(to_string(Key{7, false}) == "C#");
  CHECK(to_string(Key{-7, true}) == "Ab minor");
  CHECK(to_string(Key{0, false, insideline::Mode::dorian}) == "D dorian");
  CHECK(to_string(Key{-7, false, insideline::Mode::lydian}) == "Fb lydian");
  CHECK(to_string(Key{7, false, insideline::Mode::locrian}) == "B# locrian");
}

TEST_CASE("a note has its place on the line of fifths") {
  const auto [name, fifths] = GENERATE(table<std::string, int>(
      {{"F", -1}, {"C", 0}, {"G", 1}, {"B", 5}, {"F#", 6}, {"Bb", -2}, {"Fb", -8}, {"C##", 14}}));
  CHECK(fifths_of(parse_note_name(name).value()) == fifths);
}

TEST_CASE("a key moves with a transposing part and stays within seven signs") {
  const Interval major_ninth_down = insideline::usual_interval(-14);
  const Interval major_sixth_down = insideline::usual_interval(-9);
  CHECK(transposed(Key{2, false}, major_ninth_down) == Key{0, false});
  CHECK(transposed(Key{0, true}, major_ninth_down) == Key{-2, true});
  CHECK(to_string(transposed(Key{0, false, insideline::Mode::dorian}, major_ninth_down)) == "C dorian");
  CHECK(transposed(Key{-5, false}, major_sixth_down) == Key{4, false});               // Db, not Fb but E
  CHECK(transposed(Key{4, false}, insideline::usual_interval(4)) == Key{-4, false});  // E, not G# but Ab
}

TEST_CASE("a chart in written pitch is moved to concert pitch, chords and key") {
  const Changes written = chart(Key{2, false}, {"D", "N.C.", "A", "F#"});
  const Changes concert = transposed(written, insideline::usual_interval(-14));
  CHECK(roots(concert) == "C N.C. G E");
  CHECK(concert.key == Key{0, false});
  CHECK(concert.spans[2].onset == Beats(8));
  CHECK(form_length(concert) == form_length(written));
}

TEST_CASE("the chords of a moved chart are spelled as its key is") {
  CHECK(roots(transposed(chart(Key{-5, false}, {"Db", "Ab", "Gb"}), insideline::usual_interval(-9))) == "E B A");
  CHECK(roots(transposed(chart(Key{4, false}, {"E", "B"}), insideline::usual_interval(4))) == "Ab Eb");
  CHECK(roots(transposed(chart(std::nullopt, {"C", "F"}), insideline::usual_interval(-2))) == "Bb Eb");
}

TEST_CASE("moving a chart there and back gives the same chart") {
  const Changes changes = chart(Key{-3, false}, {"Eb", "C", "F", "Bb"});
  const int semitones = GENERATE(range(-14, 15));
  const Interval there = insideline::usual_interval(semitones);
  const Changes back = transposed(transposed(changes, there), Interval{-there.steps, -there.semitones});
  CHECK(back.key == changes.key);
  CHECK(roots(back) == roots(changes));
}

TEST_CASE("the chord at a place sounds from its onset up to its end") {
  const Harmony harmony = harmony_with_a_gap();
  CHECK(chord_index_at(harmony, 0) == 0);
  CHECK(chord_index_at(harmony, Beats(31, 4)) == 1);
  CHECK(chord_index_at(harmony, 8) == 2);
  CHECK_FALSE(chord_index_at(harmony, 10).has_value());  // N.C.
  CHECK(chord_index_at(harmony, 12) == 3);
  CHECK_FALSE(chord_index_at(harmony, 16).has_value());
  CHECK_FALSE(chord_index_at(harmony, -1).has_value());
}

TEST_CASE("the chord before and after is a different one, and N.C. stands between") {
  const Harmony harmony = harmony_with_a_gap();
  CHECK(chord_after(harmony, 0) == 2);
  CHECK(chord_before(harmony, 2) == 1);
  CHECK_FALSE(chord_before(harmony, 1).has_value());
  CHECK_FALSE(chord_after(harmony, 2).has_value());
  CHECK_FALSE(chord_before(harmony, 3).has_value());
}

TEST_CASE("a stretch holds a chord and its restatements") {
  const Harmony harmony = harmony_with_a_gap();
  CHECK(stretch_onset(harmony, 1) == Beats(0));
  CHECK(stretch_end(harmony, 0) == Beats(8));
  CHECK(stretch_end(harmony, 2) == Beats(10));
  CHECK(stretch_onset(harmony, 3) == Beats(12));
}

TEST_CASE("a form is as long as its bars") {
  CHECK(form_length(Changes{}) == Beats(0));
  CHECK(form_length(chart(std::nullopt, {"C", "F", "G"})) == Beats(12));
}
