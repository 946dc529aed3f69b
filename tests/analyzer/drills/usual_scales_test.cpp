#include "analyzer/drills/usual_scales.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::cell_tone;
using insideline::scale_tone;

namespace {

insideline::Chord scaled(const std::string& symbol) { return insideline::parse_chord_symbol(symbol).value().value(); }

std::string scale_of(const std::string& symbol) {
  std::string text;
  for (int number = 1; number <= 7; ++number) text += to_string(scale_tone(scaled(symbol), number).value()) + " ";
  return text;
}

}  // namespace

TEST_CASE("a chord's usual scale keeps what the symbol names") {
  CHECK(scale_of("Cmaj7") == "1 2 3 4 5 6 7 ");
  CHECK(scale_of("Dm7") == "1 2 b3 4 5 6 b7 ");
  CHECK(scale_of("G7(b9)") == "1 b2 3 4 5 6 b7 ");
  CHECK(scale_of("Bm7b5") == "1 b2 b3 4 b5 b6 b7 ");
}

TEST_CASE("over a half-diminished chord a cell's 9 is of the usual scale, as its 2 is, unless the symbol names it") {
  CHECK(cell_tone(scaled("Bm7b5"), {{9, 0}, false}) == insideline::Degree{9, -1});
  CHECK(cell_tone(scaled("Bm7b5"), {{2, 0}, false}) == insideline::Degree{2, -1});
  CHECK(cell_tone(scaled("Bm9b5"), {{9, 0}, false}) == insideline::Degree{9, 0});
  CHECK(cell_tone(scaled("C7"), {{11, 0}, false}) == insideline::Degree{11, 1});
}

TEST_CASE("a usual scale is called by its name where it has every tone of the chord") {
  CHECK(insideline::usual_scale_name(scaled("Bm7b5")) == "locrian");
  CHECK(insideline::usual_scale_name(scaled("Dm9")) == "dorian");
  CHECK(insideline::usual_scale_name(scaled("G7alt")) == "altered");
  CHECK(insideline::usual_scale_name(scaled("G7(b9)")).empty());
  CHECK(insideline::usual_scale_name(scaled("C5")).empty());
}

TEST_CASE("a cell's 7 is the chord's own seventh unless it is written otherwise") {
  CHECK(cell_tone(scaled("C7"), {{7, 0}, false}) == insideline::Degree{7, -1});
  CHECK(cell_tone(scaled("C7"), {{7, 0}, true}) == insideline::Degree{7, 0});
}
