// Sources of the expectations: R. Hutchinson, Music Theory for the 21st-Century Classroom, table 31.10.3; encyclopedia
// article "Avoid note" (its table of modes); rows on plain triads are common practice, no source.
#include "analyzer/harmony/tensions.hpp"

#include "tests/support/chord_reading.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("a chord knows the tensions it welcomes and the notes it avoids") {
  const auto [symbol, tensions, avoid] = GENERATE(table<Text, Text, Text>({
      {"Cmaj7", "9 #11 13", "11"},
      {"C6", "7 9 #11", "11"},
      {"C", "7 9 #11 13", "11"},
      {"Cmaj7#11", "9 13", ""},  // lydian: nothing to avoid
      {"Cmaj7#5", "9 #11", "5 13"},
      {"C7", "9 #11 13", "11"},
      {"C9", "#11 13", "11"},
      {"C7b9", "#9 #11 b13 13", "11"},  // half-whole octatonic, and the V of a minor key; b9 keeps 9 out
      {"C7#9", "b9 #11 b13 13", "11"},
      {"C7b9b13", "#9 #11", "11"},
      {"C7b13", "9 #11", "11"},
      {"C7#11", "9 13", ""},  // lydian dominant
      {"C7b5", "9 13", ""},
      {"C7#5", "9 #11", "5 13"},
      {"C7#5b9", "#9 #11", "11"},
      {"C7alt", "b9 #9 #11 b13", "5 9 13"},
      {"C7sus4", "9 13", "3"},
      {"C7sus4b9", "13", "3"},
      {"C11", "13", "3"},
      {"Cm7", "9 11 13", "b9 b13"},
      {"Cm6", "7 9 11", "b13"},
      {"CmMaj7", "9 11 13", "b13"},
      {"Cm", "b7 9 11 13", "b13"},
      {"Cm7b5", "9 11 b13", "b9"},
      {"Cdim7", "7 9 11 b13", ""},
      {"Caug", "9 #11", "5 13"},
      {"C5", "9", ""},
      {"Cmaj7add11", "9 13", ""},  // the eleventh is asked for, so it is not to be avoided
  }));
  INFO(symbol);
  const Chord chord = chord_from(symbol);
  CHECK(spelled(chord.tensions) == tensions);
  CHECK(spelled(chord.avoid) == avoid);
}

TEST_CASE("a tone that was altered keeps its natural form out of the tensions") {
  const auto [tones, tensions] = GENERATE(table<Text, Text>({
      {"1 3 5 b6", "7 9 #11"},
      {"1 3 5 #9", "7 #11 13"},
      {"1 3 5 b7 b13", "9 #11"},
      {"1 b3 5 b9", "b7 11 13"},
  }));
  INFO(tones);
  CHECK(spelled(make_chord("C", {}, degrees_from(tones)).tensions) == tensions);
}

TEST_CASE("no tension is a tone of its chord, and none is to be avoided") {
  for (const auto& row : table_rows(INSIDELINE_TESTS "/published/chord_spellings.tsv")) {
    if (row.at(2) == "none") continue;
    INFO(row.at(0));
    const Chord chord = chord_from(row.at(0));
    for (const Degree& tension : chord.tensions) {
      CHECK_FALSE(tone_with(chord, pitch_class(note_at(chord.root, tension))));
      for (const Degree& degree : chord.avoid) CHECK(pitch_class_above_root(degree) != pitch_class_above_root(tension));
    }
  }
}

TEST_CASE("a bass is told where it is not the root") {
  CHECK(make_chord("C/E", {}, degrees_from("3 5"), NoteName{Step::e, 0}).bass == NoteName{Step::e, 0});
  CHECK_FALSE(make_chord("C/C", {}, degrees_from("3 5"), NoteName{Step::c, 0}).bass);
  CHECK_FALSE(make_chord("C", {}, degrees_from("3 5")).bass);
}

TEST_CASE("degrees are called what players call them") {
  const auto [given, named] = GENERATE(table<Text, Text>({
      {"3 5 2", "1 3 5 9"},
      {"3 5 4", "1 3 5 11"},
      {"5 4 2", "1 2 4 5"},
      {"3 5 13", "1 3 5 6"},
      {"3 5 b7 6", "1 3 5 b7 13"},
      {"4 5 11", "1 4 5"},
      {"5 3 3 1", "1 3 5"},
  }));
  CHECK(spelled(make_chord("C", {}, degrees_from(given)).tones) == named);
}

TEST_CASE("a set with every altered fifth and ninth is the altered dominant") {
  const Chord spelled_out = make_chord("", {}, degrees_from("1 3 b7 b9 #9 #11 b13"));
  CHECK(is_altered(spelled_out));
  CHECK(same_chord(spelled_out, chord_from("C7alt")));
  CHECK(spelled(spelled_out_tones(spelled_out)) == "1 3 b7 b9 #9 #11 b13");
  CHECK_FALSE(is_altered(chord_from("C7b9")));
  CHECK(spelled(spelled_out_tones(chord_from("C7b9"))) == "1 3 5 b7 b9");
}

}  // namespace insideline::tests
