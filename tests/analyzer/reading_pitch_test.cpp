#include "analyzer/reading_pitch.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/label_file.hpp"
#include "tests/support/melody.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::Analysis;
using insideline::Harmony;
using insideline::Instrument;
using insideline::Interval;
using insideline::Key;
using insideline::NoteLabel;
using insideline::PitchRange;
using insideline::ReadLine;
using insideline::Respelling;
using insideline::Solo;

namespace {

constexpr Interval alto_reads{5, 9};
constexpr Interval tenor_reads{8, 14};

ReadLine read_line(const Solo& solo, const Harmony& harmony, const Interval& by, Respelling respelling) {
  const auto labels = insideline::label_notes(solo, harmony, insideline::find_phrases(solo, harmony));
  return insideline::read_in({by, respelling}, solo, harmony, labels);
}

/// "chords | notes" of a line as it is read.
std::string read_names(const std::string& chords, const std::string& melody, const Interval& by,
                       Respelling respelling = Respelling::usual) {
  const Solo solo = insideline::tests::solo_from(melody);
  const ReadLine line = read_line(solo, insideline::tests::harmony_from(chords, solo), by, respelling);
  std::string text;
  for (const auto& sounding : line.harmony.chords) text += sounding.chord.symbol + ' ';
  text += "|";
  for (const auto& note : line.solo.notes) text += ' ' + to_string(note.pitch);
  return text;
}

/// A note on its way has its degree from its name, and that may be another in the pitch of an instrument: b3 for #9.
std::string degree_said(const NoteLabel& label) {
  if (!label.degree) return "-";
  const bool is_told_by_name =
      label.role == insideline::Role::non_chord_tone || label.role == insideline::Role::outside;
  return is_told_by_name ? std::to_string(pitch_class_above_root(*label.degree)) : to_string(*label.degree);
}

/// Everything said of the notes, with no name in it.
std::string said_of(const Analysis& analysis) {
  std::string text;
  for (const NoteLabel& label : analysis.labels) {
    text += insideline::tests::code_of(label) + degree_said(label);
    text += label.governor ? '@' + std::to_string(*label.governor) + ' ' : "@- ";
  }
  for (const auto& arpeggio : analysis.arpeggios) {
    text += "| " + std::to_string(arpeggio.notes.front()) + '-' + std::to_string(arpeggio.notes.back());
    for (const auto& degree : arpeggio.degrees) text += ' ' + to_string(degree);
  }
  for (const auto& bar : analysis.telling_bars) text += "| bar " + std::to_string(bar.bar);
  for (const auto& connection : analysis.connections)
    text += "| " + to_string(connection.kind) + (connection.guide_tone ? "*" : "");
  return text;
}

}  // namespace

TEST_CASE("what is said of a line is the same in the pitch of every instrument") {
  CHECK(rc::check([] {
    const auto line = insideline::tests::random_line(*rc::gen::arbitrary<unsigned>(), 8);
    const Analysis sounding = analyze(line.solo, line.harmony);
    const auto instruments = insideline::instruments();
    const Instrument& instrument = instruments[*rc::gen::inRange(std::size_t{0}, instruments.size())];
    const std::optional<Key> key =
        *rc::gen::inRange(0, 4) == 0 ? std::nullopt : std::optional(Key{*rc::gen::inRange(-7, 8), false});
    const Interval up{-instrument.sounding_minus_written.steps, -instrument.sounding_minus_written.semitones};
    const Interval by = insideline::readable_interval(up, key, line.harmony);
    const ReadLine read = insideline::read_in({by, Respelling::usual, key}, line.solo, line.harmony, sounding.labels);
    RC_ASSERT(said_of(analyze(read.solo, read.harmony)) == said_of(sounding));
  }));
}

TEST_CASE("a line read back comes out as it sounds") {
  CHECK(rc::check([] {
    const auto line = insideline::tests::random_line(*rc::gen::arbitrary<unsigned>(), 4);
    const ReadLine up = read_line(line.solo, line.harmony, tenor_reads, Respelling::none);
    const ReadLine back =
        read_line(up.solo, up.harmony, {-tenor_reads.steps, -tenor_reads.semitones}, Respelling::none);
    for (std::size_t i = 0; i < line.solo.notes.size(); ++i)
      RC_ASSERT(back.solo.notes[i].pitch == line.solo.notes[i].pitch);
    for (std::size_t i = 0; i < line.harmony.chords.size(); ++i)
      RC_ASSERT(same_chord(back.harmony.chords[i].chord, line.harmony.chords[i].chord));
  }));
}

TEST_CASE("chords and notes get the names that players write") {
  auto [chord, melody, read] = GENERATE(table<std::string, std::string, std::string>({
      {"Bb7@0", "D4:1 F4:1", "G7 | B4 D5"},
      {"F#7@0", "F#4:1 A#4:1", "Eb7 | Eb5 G5"},                // not D sharp with its F double sharp
      {"G#m7b5@0", "G#4:1 B4:1 D4:1", "Fm7b5 | F5 Ab5 B4"},    // a B, though it is the flat fifth
      {"C#dim7@0", "C#4:1 E4:1 G4:1", "A#dim7 | A#4 C#5 E5"},  // nothing strange about it
      {"C#m7@0", "C#4:1 E4:1", "A#m7 | A#4 C#5"},
      {"E7@0", "G#4:1 B4:1", "C#7 | E#5 G#5"},  // the third of a chord keeps its letter ...
      {"E7#9@0", "G4:1 G#4:1", "C#7#9 | E5 E#5"},
      {"Gb7@0", "Bb4:1 Db4:1", "Eb7 | G5 Bb4"},
      {"Cb@0", "Cb4:1 Eb4:1", "Ab | Ab4 C5"},
      {"A7/C#@0", "C#4:1 E4:1", "F#7/A# | A#4 C#5"},
  }));
  CHECK(read_names(chord, melody, alto_reads) == read);
}

TEST_CASE("colours and notes on their way have no double accidentals, and no B sharp where D or C is meant") {
  auto [chord, melody, read] = GENERATE(table<std::string, std::string, std::string>({
      {"D7@0", "E#4:1/2 F#4:3/2", "B7 | D5 D#5"},      // not C double sharp
      {"G7@0", "A#4:2 B4:1 A#4:1", "E7 | G5 G#5 G5"},  // not F double sharp
      {"D7@0", "F#4:1 D#4:2 D4:1", "B7 | D#5 C5 B4"},  // b9, not B sharp
      {"C7@0", "C4:1 G4:1 G#4:1/2 A4:3/2", "A7 | A4 E5 F5 F#5"},
  }));
  CHECK(read_names(chord, melody, alto_reads) == read);
}

TEST_CASE("in the pitch of an instrument a colour has the name of its degree") {
  CHECK(read_names("G7@0", "G4:1 B4:1 Db5:2", tenor_reads) == "A7 | A5 C#6 D#6");  // #11
  CHECK(read_names("Ab7@0", "C5:1 Eb5:1 A4:2", tenor_reads) == "Bb7 | D6 F6 B5");  // not C flat: the source is as plain
}

TEST_CASE("a part that somebody wrote is not respelled") {
  CHECK(read_names("F#7@0", "F#4:1 A#4:1", alto_reads, Respelling::none) == "D#7 | D#5 F##5");
}

TEST_CASE("chords that stand far from the key because of its signs come near where they can") {
  const Solo solo = insideline::tests::solo_from("A4:1 C#5:1 D#5:1 G4:1");
  const Harmony harmony = insideline::tests::harmony_from("F#m7@0 B7@2 Ddim7@3", solo);
  const auto labels = insideline::label_notes(solo, harmony, insideline::find_phrases(solo, harmony));
  const auto read_in_key = [&](const Key& key) {
    std::string text;
    for (const auto& sounding :
         insideline::read_in({alto_reads, Respelling::usual, key}, solo, harmony, labels).harmony.chords)
      text += sounding.chord.symbol + ' ';
    return text;
  };
  CHECK(read_in_key({-5, false}) == "Ebm7 Ab7 Bdim7 ");
  CHECK(read_in_key({2, false}) == "D#m7 G#7 Bdim7 ");
}

TEST_CASE("a key is read with at most six signs") {
  const Solo solo = insideline::tests::solo_from("C4:1");
  const Harmony harmony = insideline::tests::harmony_from("C@0", solo);
  auto [sounding, written] = GENERATE(table<int, int>({{-3, 0}, {3, 6}, {4, -5}, {5, -4}, {6, -3}, {-7, -4}, {7, -2}}));
  const Interval by = insideline::readable_interval(alto_reads, Key{sounding, false}, harmony);
  CHECK(by.semitones == alto_reads.semitones);
  CHECK(transposed(Key{sounding, false}, by) == Key{written, false});
}

TEST_CASE("without a key the roots of the chords decide") {
  const Solo solo = insideline::tests::solo_from("C4:1 C4:1 C4:1");
  const auto first_chord = [&](const std::string& chords) {
    const Harmony harmony = insideline::tests::harmony_from(chords, solo);
    const Interval by = insideline::readable_interval(alto_reads, std::nullopt, harmony);
    return transposed(harmony.chords.front().chord, by).symbol;
  };
  CHECK(first_chord("B@0 F#7@1 G#m@2") == "Ab");
  CHECK(first_chord("Bb@0 F7@1 Gm@2") == "G");
}

TEST_CASE("a line goes by octaves to where most of it lies in the range") {
  const PitchRange trombone = written_range(*insideline::instrument_named("trombone"));
  auto [melody, octaves, outside] = GENERATE(table<std::string, int, int>({
      {"C4:1 E4:1 G4:1", 0, 0},
      {"C5:1 E5:1 G5:1", -1, 0},
      {"C4:1 E4:1 C5:1", -1, 0},
      {"C1:1 E1:1", 2, 0},
      {"E2:1 C5:1", 0, 1},  // an octave lower the other note lies outside
      {"C6:1 D6:1", -2, 0},
      {"E2:1 Bb4:1", 0, 0},
  }));
  const Solo solo = insideline::tests::solo_from(melody);
  CHECK(insideline::octaves_into_range(solo, 0, trombone) == octaves);
  CHECK(insideline::notes_outside(solo, 12 * octaves, trombone) == outside);
}
