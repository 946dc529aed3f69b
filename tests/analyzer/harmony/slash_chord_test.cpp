#include "analyzer/harmony/slash_chord.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::parse_chord_symbol;
using insideline::suspended_over_bass;

TEST_CASE("a chord over a strange bass is heard as a suspended one where fourth and flat seventh lie over the bass") {
  const auto [symbol, heard] = GENERATE(table<std::string, std::string>({
      {"Ab/Bb", "Bb9sus4"},
      {"Fm7/Bb", "Bb9sus4"},
      {"Dm7/G", "G9sus4"},
      {"Fmaj7/G", "G13sus4"},
      {"Fm/G", "G7sus4b9"},
      {"C/E", "-"},     // an inversion
      {"Cm7/Ab", "-"},  // a major third over the bass
      {"C/D", "D9sus4"},
      {"Gm/F", "-"},  // no flat seventh over F
      {"Ab", "-"},
  }));
  INFO(symbol);
  CHECK(suspended_over_bass(**parse_chord_symbol(symbol)).value_or("-") == heard);
}

TEST_CASE("what a slash chord is heard as can be read again") {
  for (const std::string& symbol : {"Ab/Bb", "Fmaj7/G", "Fm/G"}) {
    const auto heard = suspended_over_bass(**parse_chord_symbol(symbol));
    REQUIRE(heard);
    const auto chord = parse_chord_symbol(*heard);
    REQUIRE((chord && *chord));
    CHECK(quality(**chord) == insideline::ChordQuality::suspended);
  }
}
