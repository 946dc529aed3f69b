#include "analyzer/harmony/musicxml_kind.hpp"

#include "tests/support/chord_reading.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {
namespace {

using Text = const char*;

MusicxmlChord on_c(std::string kind, std::string text = "") {
  MusicxmlChord element;
  element.kind = std::move(kind);
  element.text = std::move(text);
  return element;
}

std::string symbol_of(const MusicxmlChord& element) {
  const auto reading = chord_from_musicxml(element);
  REQUIRE(reading);
  REQUIRE(reading->has_value());
  return (*reading)->symbol;
}

}  // namespace

TEST_CASE("kind names of old files stand for those of the standard") {
  const auto [name, kind] = GENERATE(table<Text, Text>({
      {"dominant-seventh", "dominant"},
      {"minor-major-seventh", "major-minor"},
      {"half-diminished-seventh", "half-diminished"},
      {"major-triad", "major"},
      {"minor-triad", "minor"},
      {"augmented-triad", "augmented"},
      {"diminished-triad", "diminished"},
      {"minor-major", "major-minor"},
      {"dominant-11", "dominant-11th"},
      {"dominant-eleventh", "dominant-11th"},
      {"major-eleventh", "major-11th"},
      {"minor-eleventh", "minor-11th"},
      {"dominant-13", "dominant-13th"},
      {"dominant-thirteenth", "dominant-13th"},
      {"major-thirteenth", "major-13th"},
      {"minor-thirteenth", "minor-13th"},
      {"suspended-2nd", "suspended-second"},
      {"suspended-4th", "suspended-fourth"},
      {"suspended", "suspended-fourth"},
      {"min", "minor"},
      {"aug", "augmented"},
      {"dim", "diminished"},
      {"maj", "major"},
      {"Neapolitan", "Neapolitan"},
      {"none", "none"},
  }));
  CHECK(standard_kind(name) == std::string_view(kind));
  CHECK_FALSE(standard_kind("neapolitan"));  // values are case-sensitive
}

TEST_CASE("the kind wins over its printed text, which is kept where it says the same") {
  CHECK(symbol_of(on_c("major", "\u25B3")) == "C");  // the printed triangle of the standard is a triad
  CHECK(symbol_of(on_c("major-seventh", "\u25B37")) == "C\u25B37");
  CHECK(symbol_of(on_c("minor-seventh", "-7")) == "C-7");
  CHECK(symbol_of(on_c("minor-seventh", "maj7")) == "Cm7");
}

TEST_CASE("kind other and unknown kinds are read from their text, then from the value itself") {
  CHECK(symbol_of(on_c("other", "7alt")) == "C7alt");
  CHECK(symbol_of(on_c("weird-chord", "13sus")) == "C13sus");
  CHECK(symbol_of(on_c("m7b5")) == "Cm7b5");
  CHECK(symbol_of(on_c("other", "b5")) == "C(b5)");  // and not a power chord on C flat
}

TEST_CASE("a kind that cannot be read is refused with the kinds that look like it") {
  const auto [kind, text, message, nearest] = GENERATE(table<Text, Text, Text, std::vector<std::string>>({
      {"dominant-eleventhh",
       "",
       "chord kind \"dominant-eleventhh\" is not known",
       {"dominant-11th", "dominant", "dominant-ninth"}},
      {"xyz", "?", "chord kind \"xyz\" is not known, and its text \"?\" is no chord symbol", {}},
      {"other", "", "chord kind \"other\" has neither degrees nor a text to read", {}},
      {"other", "?", "the text \"?\" of chord kind \"other\" is no chord symbol", {}},
  }));
  INFO(kind);
  const auto reading = chord_from_musicxml(on_c(kind, text));
  REQUIRE_FALSE(reading);
  CHECK(reading.error().message == message);
  CHECK(reading.error().nearest == nearest);
}

TEST_CASE("a 13 printed as such is the 13 of a chart, without its 11th; the kind alone is a full stack") {
  const auto [kind, text, symbol] = GENERATE(table<Text, Text, Text>({
      {"dominant-13th", "13", "C13"},
      {"major-13th", "maj13", "Cmaj13"},
      {"minor-13th", "m13", "Cm13"},
  }));
  INFO(kind);
  CHECK(same_chord(*chord_from_musicxml(on_c(kind, text)).value(), chord_from(symbol)));
  CHECK_FALSE(same_chord(*chord_from_musicxml(on_c(kind)).value(), chord_from(symbol)));
  CHECK(same_chord(*chord_from_musicxml(on_c(kind, "7")).value(), *chord_from_musicxml(on_c(kind)).value()));
}

TEST_CASE("degrees change a printed 13 as they change its kind") {
  MusicxmlChord element = on_c("dominant-13th", "13");
  element.degrees = {{9, -1, DegreeChange::alter}};
  CHECK(same_chord(*chord_from_musicxml(element).value(), chord_from("C13b9")));
  element.degrees = {{11, 1, DegreeChange::add}};
  CHECK(same_chord(*chord_from_musicxml(element).value(), chord_from("C13#11")));
}

TEST_CASE("a degree that no chord has is refused") {
  MusicxmlChord element = on_c("dominant");
  element.degrees = {{9, -4, DegreeChange::add}};
  const auto reading = chord_from_musicxml(element);
  REQUIRE_FALSE(reading);
  CHECK(reading.error().message == "degree 9 altered by -4 is no degree of a chord");
}

TEST_CASE("bass and inversion give the lowest note, and the bass wins") {
  MusicxmlChord element = on_c("minor-seventh");
  element.inversion = 1;
  CHECK(symbol_of(element) == "Cm7/Eb");
  element.inversion = 3;
  CHECK(symbol_of(element) == "Cm7/Bb");
  element.bass = parse_note_name("F");
  CHECK(symbol_of(element) == "Cm7/F");
}

TEST_CASE("a chord is written with the kind that needs the fewest degrees") {
  const auto [symbol, kind, degrees] = GENERATE(table<Text, Text, std::vector<KindDegree>>({
      {"C", "major", {}},
      {"CmMaj7", "major-minor", {}},
      {"C7b9", "dominant", {{9, -1, DegreeChange::add}}},
      {"C7b5", "dominant", {{5, -1, DegreeChange::alter}}},
      {"Cmaj7#5", "major-seventh", {{5, 1, DegreeChange::alter}}},
      {"C13", "dominant-13th", {{11, 0, DegreeChange::subtract}}},
      {"C7sus4", "suspended-fourth", {{7, 0, DegreeChange::add}}},
      {"C69", "major-sixth", {{9, 0, DegreeChange::add}}},
      {"C7omit5", "dominant", {{5, 0, DegreeChange::subtract}}},
  }));
  INFO(symbol);
  const MusicxmlChord element = musicxml_from_chord(chord_from(symbol));
  CHECK(element.kind == kind);
  CHECK(element.degrees == degrees);
  CHECK("C" + element.text == symbol);
}

TEST_CASE("every published spelling survives the way through MusicXML") {
  for (const auto& row : table_rows(INSIDELINE_TESTS "/published/chord_spellings.tsv")) {
    if (row.at(2) == "none") continue;
    INFO(row.at(0));
    const Chord chord = chord_from(row.at(0));
    const auto back = chord_from_musicxml(musicxml_from_chord(chord));
    REQUIRE(back);
    CHECK(same_chord(back->value(), chord));
  }
}

}  // namespace insideline::tests
