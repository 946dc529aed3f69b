#include "reports/printed/chord_markup.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::Chord;
using insideline::parse_chord_symbol;
using insideline::reports::chord_markup;
using insideline::reports::chord_parts;
using insideline::reports::ChordParts;

namespace {

Chord chord(const std::string& symbol) {
  const auto reading = parse_chord_symbol(symbol);
  REQUIRE(reading.has_value());
  REQUIRE(reading->has_value());
  return **reading;
}

}  // namespace

TEST_CASE("a chord symbol keeps the player's spelling in its parts") {
  const auto [symbol, root, quality, extension, bass] =
      GENERATE(table<std::string, std::string, std::string, std::string, std::string>({
          {"C", "C", "", "", ""},
          {"Ebmaj7", "Eb", "maj", "7", ""},
          {"Bbm7(b5)", "Bb", "m", "7(b5)", ""},
          {"F#-7", "F#", "-", "7", ""},
          {"G7alt", "G", "", "7alt", ""},
          {"A13sus4", "A", "", "13sus4", ""},
          {"Db6/9", "Db", "", "6/9", ""},
          {"C7/Bb", "C", "", "7", "Bb"},
          {"Gbdim7", "Gb", "dim", "7", ""},
          {"Cm(maj7)", "C", "m", "(maj7)", ""},
          {"Dsus", "D", "sus", "", ""},
          {"C:min7", "C", "m", "7", ""},
      }));
  INFO(symbol);
  const ChordParts parts = chord_parts(chord(symbol));
  CHECK(to_string(parts.root) == root);
  CHECK(parts.quality == quality);
  CHECK(parts.extension == extension);
  CHECK((parts.bass ? to_string(*parts.bass) : "") == bass);
}

TEST_CASE("accidentals before a number are signs, others are letters") {
  CHECK(chord_markup(chord("Bb7(b9)")) == R"x(\chord-symbol "B" "b" "" { "7(" \flat-sign "9)" } "" "")x");
  CHECK(chord_markup(chord("C7#11/G")) == R"x(\chord-symbol "C" "" "" { "7" \sharp-sign "11" } "G" "")x");
  CHECK(chord_markup(chord("Ebsus")) == R"x(\chord-symbol "E" "b" "sus" { } "" "")x");
}

TEST_CASE("what a symbol hides does not leave its string") {
  Chord hostile = chord("C7");
  hostile.symbol = "C7\" #(system \"x\") \\";
  CHECK(chord_markup(hostile) == R"x(\chord-symbol "C" "" "" { "7\" #(system \"x\") \\" } "" "")x");
}
