// Source: C. Harte, M. Sandler, S. Abdallah, E. Gomez, "Symbolic Representation of Musical Chords: A Proposed Syntax
// for Text Annotations", ISMIR 2005, table 1 (the first sixteen rows); documentation of the open libraries JAMS and
// mir_eval (the later ones, where 11 and 13 are full stacks).
#include "analyzer/harmony/academic_label.hpp"
#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("the shorthands of chord labels mean what their paper says") {
  const auto [label, degrees, semitones] = GENERATE(table<Text, Text, Text>({
      {"C:maj", "1 3 5", "0 4 7"},
      {"C:min", "1 b3 5", "0 3 7"},
      {"C:dim", "1 b3 b5", "0 3 6"},
      {"C:aug", "1 3 #5", "0 4 8"},
      {"C:maj7", "1 3 5 7", "0 4 7 11"},
      {"C:min7", "1 b3 5 b7", "0 3 7 10"},
      {"C:7", "1 3 5 b7", "0 4 7 10"},
      {"C:dim7", "1 b3 b5 bb7", "0 3 6 9"},
      {"C:hdim7", "1 b3 b5 b7", "0 3 6 10"},
      {"C:minmaj7", "1 b3 5 7", "0 3 7 11"},
      {"C:maj6", "1 3 5 6", "0 4 7 9"},
      {"C:min6", "1 b3 5 6", "0 3 7 9"},
      {"C:9", "1 3 5 b7 9", "0 2 4 7 10"},
      {"C:maj9", "1 3 5 7 9", "0 2 4 7 11"},
      {"C:min9", "1 b3 5 b7 9", "0 2 3 7 10"},
      {"C:sus4", "1 4 5", "0 5 7"},
      {"C:sus2", "1 2 5", "0 2 7"},
      {"C:5", "1 5", "0 7"},
      {"C:1", "1", "0"},
      {"C:aug7", "1 3 #5 b7", "0 4 8 10"},
      {"C:11", "1 3 5 b7 9 11", "0 2 4 5 7 10"},
      {"C:13", "1 3 5 b7 9 11 13", "0 2 4 5 7 9 10"},
      {"C:min13", "1 b3 5 b7 9 11 13", "0 2 3 5 7 9 10"},
  }));
  INFO(label);
  const Chord chord = chord_from(label);
  CHECK(spelled(chord.tones) == degrees);
  CHECK(pitch_classes(chord) == semitones);
  CHECK(academic_label(chord) == label);
}

}  // namespace insideline::tests
