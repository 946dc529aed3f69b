#include "analyzer/harmony/academic_label.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("a chord label names its root, a shorthand, degrees and a bass") {
  const auto [label, plain] = GENERATE(table<Text, Text>({
      {"C:min7/b3", "Cm7/Eb"},
      {"Bb:maj/3", "Bb/D"},
      {"C/b3", "C/Eb"},
      {"C/5", "C/G"},
      {"F#:hdim7", "F#m7b5"},
      {"C:maj(9)", "Cadd9"},
      {"C:7(*5)", "C7omit5"},
      {"C:7(b9,*5)", "C7b9omit5"},
      {"C:(3,5,b7)", "C7"},
      {"G:sus4(b7,9)", "G9sus4"},
      {"C:min(7)", "CmMaj7"},
  }));
  CHECK(canonical_symbol(chord_from(label)) == plain);
}

TEST_CASE("a chord is written as the label that says least") {
  const auto [symbol, label] = GENERATE(table<Text, Text>({
      {"C", "C:maj"},
      {"Cm7/Bb", "C:min7/b7"},
      {"C/D", "C:maj/2"},
      {"C7b9", "C:7(b9)"},
      {"C69", "C:maj6(9)"},
      {"C13", "C:9(13)"},
      {"C11", "C:11(*3)"},
      {"C9sus4", "C:sus4(b7,9)"},
      {"C7omit5", "C:7(*5)"},
      {"C7alt", "C:7(b9,#9,#11,b13,*5)"},
  }));
  CHECK(academic_label(chord_from(symbol)) == label);
  CHECK(same_chord(chord_from(label), chord_from(symbol)));
}

TEST_CASE("every degree of a chord label can be written as a symbol and as a label again") {
  for (int number = 1; number <= 13; ++number)
    for (const char* accidental : {"", "b", "bb", "#", "##"})
      for (const char* shorthand : {"G:7", "G:maj", "G:min", "G:", "G:sus4", "G:dim7"})
        for (const char* more : {"", ",*5", ",b9"}) {
          const std::string label = std::string(shorthand) + "(" + accidental + std::to_string(number) + more + ")";
          CAPTURE(label);
          const Chord chord = chord_from(label);
          CAPTURE(canonical_symbol(chord), academic_label(chord));
          CHECK(same_chord(chord_from(canonical_symbol(chord)), chord));
          CHECK(same_chord(chord_from(academic_label(chord)), chord));
        }
}

TEST_CASE("octave, tenth and twelfth of a chord label are tones of the chord again, altered octaves their neighbours") {
  CHECK(spelled(chord_from("G:7(b8,*5)").tones) == "1 3 b7 7");
  CHECK(spelled(chord_from("G:7(8,10,12)").tones) == "1 3 5 b7");
  CHECK(spelled(chord_from("G:7(#8)").tones) == "1 3 5 b7 b9");
  CHECK(spelled(chord_from("G:7(b10)").tones) == "1 b3 3 5 b7");
  CHECK(spelled(chord_from("G:7(##7)").tones) == "1 3 5 b7 b9");
}

TEST_CASE("a lone root with a slash is a label only before a bass degree, not before an added note") {
  CHECK(is_academic_label("C/3"));
  CHECK(is_academic_label("C:maj"));
  CHECK_FALSE(is_academic_label("C/9"));
  CHECK_FALSE(is_academic_label("C/E"));
  CHECK(spelled(chord_from("C/9").tones) == "1 3 5 9");
}

TEST_CASE("a chord label that breaks its grammar is refused with the place") {
  const auto [label, offset, message] = GENERATE(table<Text, std::size_t, Text>({
      {"C:", 2, "\"\" is no shorthand of chord labels"},
      {"C:seven", 2, "\"seven\" is no shorthand of chord labels"},
      {"C:7(b9", 6, "found the end of the degrees where a closing bracket was expected"},
      {"C:7(b9,x)", 7, "found \"x\" where a degree such as b9 was expected"},
      {"C:7()", 4, "found the end where a degree such as b9 was expected"},
      {"C:7/Bb", 4, "found \"B\" where the bass stands as a degree, such as b3"},
      {"C:7(14)", 4, "found \"1\" where a degree such as b9 was expected"},
  }));
  INFO(label);
  const auto reading = parse_chord_symbol(label);
  REQUIRE_FALSE(reading);
  CHECK(reading.error().offset_bytes == offset);
  CHECK(reading.error().message == message);
}

}  // namespace insideline::tests
