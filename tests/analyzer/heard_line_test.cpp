#include "analyzer/heard_line.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::moved_up;
using insideline::tests::analysed;

TEST_CASE("the tones of a chord are a set of pitch classes that can be moved") {
  const auto set_of = [](const std::string& symbol) {
    return insideline::tone_set(insideline::parse_chord_symbol(symbol).value().value());
  };
  CHECK(set_of("C") == 0b000010010001);
  CHECK(set_of("C6") == set_of("Am7"));
  CHECK(moved_up(set_of("G7"), 5) == set_of("C7"));
  CHECK(moved_up(set_of("Cdim7"), 3) == set_of("Cdim7"));
  CHECK(moved_up(set_of("Bm7b5"), 0) == set_of("Bm7b5"));
}

TEST_CASE("chords side by side that are the same are one stretch, and N.C. parts them") {
  const auto stretches = analysed("C7@0 C7@4 F7@8 N.C.@12 F7@16", "C4:20").heard.stretches;
  REQUIRE(stretches.size() == 3);
  CHECK(stretches[0].first == 0);
  CHECK(stretches[0].last == 1);
  CHECK(stretches[0].end == insideline::Beats(8));
  CHECK_FALSE(stretches[0].follows);
  CHECK(stretches[1].follows);
  CHECK_FALSE(stretches[2].follows);
}

TEST_CASE("each note knows its beat, its bar, its phrase and whether the chord changes under it") {
  const auto line = analysed("C@0 F@4", "C4:1 D4:1/2 E4:1/2 G4:2 r:1 A4:1 C5:1/2 F4:3/2");
  const auto& notes = line.heard.notes;
  REQUIRE(notes.size() == 7);
  const auto on_beat = [&](std::size_t i) { return notes[i].on_beat; };
  CHECK((on_beat(0) && on_beat(1) && !on_beat(2) && on_beat(3) && on_beat(4) && on_beat(5) && !on_beat(6)));
  CHECK((notes[0].on_strong_beat && notes[3].on_strong_beat && !notes[1].on_strong_beat && notes[5].on_strong_beat));
  CHECK((notes[3].phrase == 0 && notes[4].phrase == 1));
  CHECK((notes[3].bar == 0 && notes[4].bar == 1));
  CHECK_FALSE(notes[4].on_change);  // it enters a beat after the chord
  CHECK(analysed("C@0 F@4", "C4:4 A4:4").heard.notes[1].on_change);
}

TEST_CASE("in 6/8 the beats are the dotted quarters") {
  const auto line = analysed("C@0", "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2", {.beats = 6, .unit = 8});
  std::string beats;
  for (const auto& note : line.heard.notes) beats += note.on_beat ? 'x' : '-';
  CHECK(beats == "x--x--");
}

TEST_CASE("grace notes are not among the notes") {
  const auto line = analysed("C@0", "B3:0 C4:1 D4:0 E4:1");
  REQUIRE(line.heard.notes.size() == 2);
  CHECK(line.heard.notes[1].note == 3);
}
