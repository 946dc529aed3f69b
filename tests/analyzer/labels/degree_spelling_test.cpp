#include "analyzer/labels/degree_spelling.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Chord;
using insideline::Note;
using Text = std::string;

namespace {

Chord chord(const Text& symbol) { return **insideline::parse_chord_symbol(symbol); }

Note note(const Text& pitch, bool spelled = true) {
  Note made;
  made.pitch = insideline::parse_pitch(pitch).value();
  made.spelled = spelled;
  return made;
}

}  // namespace

TEST_CASE("a degree follows the file's spelling where there is one") {
  const auto [symbol, pitch, degree] = GENERATE(table<Text, Text, Text>({{"C7", "F#4", "#11"},
                                                                         {"C7", "Gb4", "b5"},
                                                                         {"C7", "D#4", "#9"},
                                                                         {"C7", "Eb4", "b3"},
                                                                         {"C7", "Ab4", "b13"},
                                                                         {"C7", "G#4", "#5"},
                                                                         {"Cmaj7", "A4", "13"},
                                                                         {"C6", "A4", "6"},
                                                                         {"C", "A4", "6"},
                                                                         {"Cdim7", "A4", "bb7"},
                                                                         {"Cm7", "E4", "3"},
                                                                         {"C7", "B4", "7"},
                                                                         {"C7alt", "Eb4", "#9"}}));
  CHECK(to_string(degree_over(chord(symbol), note(pitch), true)) == degree);
  CHECK(to_string(degree_over(chord(symbol), note(pitch), false)) == degree);
}

TEST_CASE("without a spelling the degree is named by where the note goes") {
  CHECK(to_string(degree_over(chord("C7"), note("F#4", false), true)) == "#11");
  CHECK(to_string(degree_over(chord("C7"), note("F#4", false), false)) == "b5");
  CHECK(to_string(degree_over(chord("C7"), note("Eb4", false), true)) == "#9");
  CHECK(to_string(degree_over(chord("C7"), note("Eb4", false), false)) == "b3");
}

TEST_CASE("a spelling no player uses gives way to the motion") {
  CHECK(to_string(degree_over(chord("Cm7"), note("Fb4"), true)) == "3");
  CHECK(to_string(degree_over(chord("C"), note("C#4"), true)) == "b9");
}

TEST_CASE("as a colour of a dominant the minor third is its sharp ninth") {
  CHECK(to_string(tension_over(chord("C7"), pitch_class(note("Eb4").pitch.name))) == "#9");
  CHECK(to_string(tension_over(chord("C7"), pitch_class(note("Gb4").pitch.name))) == "#11");
  CHECK(to_string(tension_over(chord("Cmaj7"), pitch_class(note("D4").pitch.name))) == "9");
}
