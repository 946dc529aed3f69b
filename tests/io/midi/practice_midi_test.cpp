#include "io/midi/practice_midi.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::parse_chord_symbol;
using insideline::io::sounded_chord;
using insideline::io::write_practice_midi;
using insideline::tests::harmony_from;
using insideline::tests::read_midi;
using insideline::tests::solo_from;

TEST_CASE("the line is what a reader takes for the solo, one bar after the clicks") {
  const auto solo = solo_from("E5:1 C5:1 Bb4:1 G4:1 | F4:2 A4:2");
  const auto read = read_midi(write_practice_midi(solo, harmony_from("C7@0 F7@4", solo)));
  std::string text;
  for (const auto& note : read.solo.notes)
    text += std::to_string(midi_number(note.pitch)) + "@" + to_string(note.onset) + " ";
  CHECK(text == "76@4 72@5 70@6 67@7 65@8 69@10 ");
}

TEST_CASE("a chord sounds its bass below and each other tone once above") {
  auto [symbol, expected] = GENERATE(table<std::string, std::vector<int>>({
      {"C7", {36, 52, 55, 58}},
      {"C/E", {40, 55, 60}},
      {"Bm7b5", {47, 53, 57, 62}},
  }));
  CHECK(sounded_chord(parse_chord_symbol(symbol)->value()) == expected);
}
