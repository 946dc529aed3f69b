// Source: MusicXML 4.0, W3C Music Notation Community Group, types kind-value, degree-type-value and degree-alter. The
// five kinds that the standard names without spelling them are those of the open library music21 (module harmony).
#include "analyzer/harmony/musicxml_kind.hpp"
#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

#include <sstream>

namespace insideline::tests {
namespace {

using Text = const char*;

/// "dominant + add 9 -1": a kind and its degrees, each a word, a value and an alteration.
MusicxmlChord element_from(std::string_view text) {
  std::istringstream words{std::string(text)};
  MusicxmlChord element;
  words >> element.kind;
  std::string plus;
  std::string change;
  KindDegree degree;
  while (words >> plus >> change >> degree.value >> degree.alter) {
    degree.change = change == "add"     ? DegreeChange::add
                    : change == "alter" ? DegreeChange::alter
                                        : DegreeChange::subtract;
    element.degrees.push_back(degree);
  }
  return element;
}

}  // namespace

TEST_CASE("the kinds of MusicXML have the tones that the standard gives them") {
  const auto [kind, degrees, semitones] = GENERATE(table<Text, Text, Text>({
      {"major", "1 3 5", "0 4 7"},
      {"minor", "1 b3 5", "0 3 7"},
      {"augmented", "1 3 #5", "0 4 8"},
      {"diminished", "1 b3 b5", "0 3 6"},
      {"dominant", "1 3 5 b7", "0 4 7 10"},
      {"major-seventh", "1 3 5 7", "0 4 7 11"},
      {"minor-seventh", "1 b3 5 b7", "0 3 7 10"},
      {"diminished-seventh", "1 b3 b5 bb7", "0 3 6 9"},
      {"augmented-seventh", "1 3 #5 b7", "0 4 8 10"},
      {"half-diminished", "1 b3 b5 b7", "0 3 6 10"},
      {"major-minor", "1 b3 5 7", "0 3 7 11"},
      {"major-sixth", "1 3 5 6", "0 4 7 9"},
      {"minor-sixth", "1 b3 5 6", "0 3 7 9"},
      {"dominant-ninth", "1 3 5 b7 9", "0 2 4 7 10"},
      {"major-ninth", "1 3 5 7 9", "0 2 4 7 11"},
      {"minor-ninth", "1 b3 5 b7 9", "0 2 3 7 10"},
      {"dominant-11th", "1 3 5 b7 9 11", "0 2 4 5 7 10"},
      {"major-11th", "1 3 5 7 9 11", "0 2 4 5 7 11"},
      {"minor-11th", "1 b3 5 b7 9 11", "0 2 3 5 7 10"},
      {"dominant-13th", "1 3 5 b7 9 11 13", "0 2 4 5 7 9 10"},
      {"major-13th", "1 3 5 7 9 11 13", "0 2 4 5 7 9 11"},
      {"minor-13th", "1 b3 5 b7 9 11 13", "0 2 3 5 7 9 10"},
      {"suspended-second", "1 2 5", "0 2 7"},
      {"suspended-fourth", "1 4 5", "0 5 7"},
      {"power", "1 5", "0 7"},
      {"pedal", "1", "0"},
      {"Neapolitan", "1 3 b5 b9", "0 1 4 6"},  // a second beside a third is called ninth here
      {"Italian", "1 #4 b6", "0 6 8"},
      {"French", "1 2 #4 b6", "0 2 6 8"},
      {"German", "1 b3 b6 #11", "0 3 6 8"},
      {"Tristan", "1 #4 #6 #9", "0 3 6 10"},
  }));
  INFO(kind);
  const auto reading = chord_from_musicxml(element_from(kind));
  REQUIRE(reading);
  REQUIRE(reading->has_value());
  CHECK(spelled((*reading)->tones) == degrees);
  CHECK(pitch_classes(**reading) == semitones);
  CHECK(same_chord(chord_from((*reading)->symbol), **reading));
}

TEST_CASE("kind none is no chord, and kind other has only the degrees that are added to it") {
  CHECK_FALSE(chord_from_musicxml(element_from("none")).value().has_value());
  CHECK(spelled(chord_from_musicxml(element_from("other + add 4 0 + add 7 0")).value()->tones) == "1 4 b7");
}

TEST_CASE("degrees change a kind as the standard says") {
  const auto [encoding, symbol, semitones] = GENERATE(table<Text, Text, Text>({
      {"dominant + add 9 -1", "C7b9", "0 1 4 7 10"},
      {"dominant + add 9 1", "C7#9", "0 3 4 7 10"},
      {"dominant + add 11 1", "C7#11", "0 4 6 7 10"},
      {"dominant + add 13 -1", "C7b13", "0 4 7 8 10"},
      {"dominant + alter 5 -1", "C7b5", "0 4 6 10"},
      {"major-seventh + alter 5 1", "Cmaj7#5", "0 4 8 11"},
      {"minor-seventh + alter 5 -1", "Cm7b5", "0 3 6 10"},
      {"half-diminished + alter 5 1", "Cm7", "0 3 7 10"},
      {"suspended-fourth + add 7 0", "C7sus4", "0 5 7 10"},
      {"suspended-fourth + add 7 1", "Cmaj7sus4", "0 5 7 11"},
      {"major + add 9 0", "Cadd9", "0 2 4 7"},
      {"major-sixth + add 9 0", "C69", "0 2 4 7 9"},
      {"major-minor + add 9 0", "CmMaj9", "0 2 3 7 11"},
      {"dominant-13th + subtract 11 0", "C13", "0 2 4 7 9 10"},
      {"dominant-11th + subtract 3 0", "C11", "0 2 5 7 10"},
      {"dominant + subtract 5 0", "C7omit5", "0 4 10"},
      {"dominant + alter 9 -1", "C7b9", "0 1 4 7 10"},  // not defined by the standard: read as add
      {"dominant + subtract 5 0 + add 9 -1 + add 9 1 + add 11 1 + add 13 -1", "C7alt", "0 4 10"},
  }));
  INFO(encoding);
  const auto reading = chord_from_musicxml(element_from(encoding));
  REQUIRE(reading);
  REQUIRE(reading->has_value());
  CHECK((*reading)->symbol == symbol);
  CHECK(pitch_classes(**reading) == semitones);
}

}  // namespace insideline::tests
