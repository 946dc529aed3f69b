#include "analyzer/phrases.hpp"

#include "tests/support/melody.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::find_phrases;
using insideline::tests::harmony_from;
using insideline::tests::solo_from;

namespace {

std::string phrases_of(const std::string& melody, const std::string& chords = "C@0",
                       const insideline::Meter& meter = {}) {
  const auto solo = solo_from(melody, meter);
  std::string text;
  for (const auto& phrase : find_phrases(solo, harmony_from(chords, solo)))
    text += (text.empty() ? "" : " ") + std::to_string(phrase.first) + '-' + std::to_string(phrase.last);
  return text;
}

std::string bars_of_eighths(int bars, const std::string& last) {
  std::string text;
  for (int i = 0; i < 8 * bars - 1; ++i) text += i % 2 == 0 ? "C4:1/2 " : "D4:1/2 ";
  return text + last + ' ';
}

}  // namespace

TEST_CASE("a phrase ends at a rest of three quarters of a beat, and at half a beat where the line has slowed down") {
  const auto [melody, phrases] = GENERATE(table<std::string, std::string>({
      {"C4:1 E4:1 r:1 G4:1", "0-1 2-2"},
      {"C4:1/2 E4:1/4 r:3/4 G4:1", "0-1 2-2"},
      {"C4:1/2 E4:1/2 r:1/2 G4:1", "0-2"},
      {"C4:1/2 E4:1 r:1/2 G4:1", "0-1 2-2"},
      {"C4:1 E4:1 G4:1", "0-2"},
      {"r:4 C4:1 r:4 E4:1", "0-0 1-1"},
  }));
  CHECK(phrases_of(melody) == phrases);
}

TEST_CASE("in 6/8 the beat is a dotted quarter") {
  const insideline::Meter six_eight{.beats = 6, .unit = 8};
  CHECK(phrases_of("C4:1/2 E4:1/2 r:1/2 G4:1/2 A4:1/2 C5:1/2", "C@0", six_eight) == "0-4");
  CHECK(phrases_of("C4:1/2 E4:1/2 r:3/2 G4:1/2", "C@0", six_eight) == "0-1 2-2");
}

TEST_CASE("a grace note belongs to the phrase of the note it leads to") {
  CHECK(phrases_of("C4:1 E4:1 r:2 F#4:0 G4:1") == "0-1 2-3");
}

TEST_CASE("a long note ends a phrase where it has come to rest") {
  const std::string run = "C4:1/2 D4:1/2 E4:1/2 F4:1/2 ";
  CHECK(phrases_of(run + "G4:3 A4:1/2 G4:1/2 F4:1/2 E4:1/2", "C@0") == "0-4 5-8");
  CHECK(phrases_of(run + "G4:3 G4:1/2 A4:1/2 F4:1/2 E4:1/2", "C@0") == "0-8");  // struck again, it goes on
  CHECK(phrases_of(run + "F4:3 E4:1/2 D4:1/2 C4:1/2 E4:1/2", "C@0") == "0-8");  // foreign to C: it wants to go on
  CHECK(phrases_of(run + "G4:2 A4:1/2 G4:1/2 F4:1/2 E4:1/2", "C@0") == "0-8");  // not long enough
  CHECK(phrases_of("C4:2 D4:2 E4:2 F4:2", "C@0") == "0-3");                     // long notes are usual here
}

TEST_CASE("a long note held into a chord that it does not belong to goes on") {
  CHECK(phrases_of("A3:1/2 B3:1/2 D4:1/2 E4:1/2 C4:4 B3:1/2 A3:1/2 G3:1/2 A3:1/2", "C@0 G@4") == "0-8");
}

TEST_CASE("a long note that ends where no chord sounds has come to rest, foreign or not") {
  const std::string line = "C4:1/2 D4:1/2 E4:1/2 F4:1/2 F#4:4 G4:1/2 F4:1/2 E4:1/2 C4:1/2";
  CHECK(phrases_of(line, "C@0 N.C.@4") == "0-4 5-8");
  CHECK(phrases_of(line, "C@0") == "0-8");
}

TEST_CASE("a run of more than eight bars is parted where a four-bar group begins after a breath") {
  const std::string no_breath = bars_of_eighths(4, "D4:1/2");
  const std::string breath = bars_of_eighths(4, "r:1/2");
  CHECK(phrases_of(breath + no_breath + no_breath) == "0-30 31-94");
  CHECK(phrases_of(no_breath + breath + no_breath) == "0-62 63-94");
  CHECK(phrases_of(breath + no_breath) == "0-62");                 // eight bars may be one phrase
  CHECK(phrases_of(no_breath + no_breath + no_breath) == "0-95");  // nobody breathes
}

TEST_CASE("the phrases hold every note once") {
  const auto solo = solo_from("C4:1/2 r:1 E4:1/2 G4:0 G4:2 r:2 A4:1 B4:1/4 C5:1/4 r:3 D5:0 E5:4");
  std::size_t next = 0;
  for (const auto& phrase : find_phrases(solo, harmony_from("C@0", solo))) {
    CHECK(phrase.first == next);
    CHECK(phrase.last >= phrase.first);
    next = phrase.last + 1;
  }
  CHECK(next == solo.notes.size());
  CHECK(find_phrases({}, {}).empty());
}
