#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("transposing a chord moves root, bass and what is written, and keeps the handwriting") {
  const auto [symbol, moved] = GENERATE(table<Text, Text>({
      {"Bb7", "C7"},
      {"B\u266D7(\u266D9)", "C7(\u266D9)"},
      {"Am7/D", "Bm7/E"},
      {"Eb6/9", "F6/9"},
      {"G:min7/b3", "A:min7/b3"},
      {"E7/9/G#", "F#7/9/A#"},
      {"dm7", "Em7"},
      {"C/C", "D"},
  }));
  const Chord chord = transposed(chord_from(symbol), {1, 2});
  CHECK(chord.symbol == moved);
  CHECK(same_chord(chord, chord_from(moved)));
}

}  // namespace insideline::tests
