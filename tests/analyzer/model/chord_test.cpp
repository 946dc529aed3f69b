#include "analyzer/model/chord.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("a chord belongs to its family, and tells its guide tones") {
  const auto [symbol, family, guides] = GENERATE(table<Text, Text, Text>({
      {"C", "major", "3"},
      {"C6", "major", "3 6"},
      {"Cmaj7", "major", "3 7"},
      {"Cmaj7#5", "major", "3 7"},
      {"Cm", "minor", "b3"},
      {"CmMaj7", "minor", "b3 7"},
      {"C7", "dominant", "3 b7"},
      {"C7alt", "dominant", "3 b7"},
      {"C7#5", "dominant", "3 b7"},
      {"Cm7b5", "half-diminished", "b3 b7"},
      {"Cdim", "diminished", "b3"},
      {"Cdim7", "diminished", "b3 bb7"},
      {"Caug", "augmented", "3"},
      {"C7sus4", "suspended", "4 b7"},
      {"C11", "suspended", "11 b7"},
      {"Csus2", "suspended", ""},
      {"C5", "power", ""},
      {"C7no3", "other", "b7"},
  }));
  INFO(symbol);
  const Chord chord = chord_from(symbol);
  CHECK(to_string(quality(chord)) == family);
  CHECK(spelled(guide_tones(chord)) == guides);
}

TEST_CASE("two symbols are the same chord when root, tones, tensions and bass agree") {
  CHECK(same_chord(chord_from("Cm7"), chord_from("C-7")));
  CHECK(same_chord(chord_from("C7(b9)"), chord_from("C79b")));
  CHECK_FALSE(same_chord(chord_from("Cm7"), chord_from("Cm7/Bb")));
  CHECK_FALSE(same_chord(chord_from("C#7"), chord_from("Db7")));
  CHECK_FALSE(same_chord(chord_from("C7alt"), chord_from("C7no5")));
}

TEST_CASE("a pitch class is a tone or a tension of a chord, or neither") {
  const Chord chord = chord_from("C7");
  CHECK(tone_with(chord, 10) == Degree{7, -1});
  CHECK_FALSE(tone_with(chord, 2));
  CHECK(tension_with(chord, 2) == Degree{9, 0});
  CHECK(tension_with(chord, 6) == Degree{11, 1});
  CHECK_FALSE(tension_with(chord, 5));
}

}  // namespace insideline::tests
