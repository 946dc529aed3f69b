#include "analyzer/harmony/chord_symbol.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("a chord has one plain symbol") {
  const auto [symbol, plain] = GENERATE(table<Text, Text>({
      {"C\u25B39", "Cmaj9"},
      {"C-7(b5)", "Cm7b5"},
      {"B\u266D\u00B07", "Bbdim7"},
      {"C7(b9,#11)", "C7b9#11"},
      {"C79b13b", "C7b9b13"},
      {"C+7", "C7#5"},
      {"C(b9)", "C(b9)"},
      {"C6/9", "C69"},
      {"Csus", "Csus4"},
      {"C7sus(b9)", "C7sus4b9"},
      {"Calt", "C7alt"},
      {"C2", "Cadd9"},
      {"Cno3", "C5"},
      {"C7(no3)", "C7omit3"},
      {"C7(13)", "C7add13"},
      {"C9(13)", "C13"},
      {"C:13", "C13add11"},
      {"C\u00B07(maj7)", "Cdim7addmaj7"},
      {"Caddb3", "Caddb3"},
      {"Csus2#4", "Csus2#4"},
      {"C:(b9,4)/b3", "Csus4b9omit5/Eb"},
      {"C:(##4,#6,#9)", "Csus##4#6#9omit5"},
      {"C-7/Bb", "Cm7/Bb"},
      {"dm7", "Dm7"},
  }));
  CHECK(canonical_symbol(chord_from(symbol)) == plain);
}

}  // namespace insideline::tests
