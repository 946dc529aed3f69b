#include "io/hearing/hearing_file.hpp"

#include "analyzer/analysis.hpp"
#include "io/read_result.hpp"
#include "tests/support/melody.hpp"

#include <string>

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using insideline::Against;
using insideline::Beats;
using insideline::Degree;
using insideline::Figure;
using insideline::Pin;
using insideline::Placement;
using insideline::Role;
using insideline::io::HearingReading;
using insideline::io::parse_hearing;
using insideline::io::ReadError;

namespace {

// Bar 1: beats 1, 2, 2.5, 3 (two grace notes before it), 4; bar 2: three triplets, then beat 2 (one grace note).
HearingReading read(const std::string& text) {
  static const auto solo =
      insideline::tests::solo_from("C4:1 D4:1/2 E4:1/2 F4:0 G4:0 A4:1 B4:1 | C5:1/3 D5:1/3 E5:1/3 F5:0 G5:3");
  return parse_hearing(text, "solo.hearing", solo);
}

Pin one(const std::string& text) {
  const HearingReading reading = read(text);
  REQUIRE(reading.pins.size() == 1);
  return reading.pins.front();
}

std::string error(const std::string& text) {
  try {
    read(text);
  } catch (const ReadError& refused) {
    return refused.what();
  }
  return "no error";
}

}  // namespace

TEST_CASE("a line has a bar, a beat and what the note is") {
  const Pin pin = one("1 2.5 neighbour\n");
  CHECK(pin.onset == Beats(3, 2));
  CHECK(pin.grace == 0);
  CHECK(pin.figure == Figure::neighbour_tone);
  CHECK_FALSE(pin.role);
}

TEST_CASE("roles, figures, places in the chord, degrees and chords are said in the words of the README") {
  CHECK(one("1 1 tension").role == Role::tension);
  CHECK(one("1 1 non-chord tone").role == Role::non_chord_tone);
  CHECK(one("1 1 Outside").role == Role::outside);
  CHECK(one("1 1 double neighbour").figure == Figure::double_neighbour);
  CHECK(one("1 1 a passing tone").figure == Figure::passing_tone);
  CHECK(one("1 1 b9").degree == Degree{9, -1});
  CHECK(one("1 1 #11").degree == Degree{11, 1});
  CHECK(one("1 1 5").degree == Degree{5, 0});
  CHECK(one("1 1 anticipation").placement == Placement::anticipation);
  const Pin before = one("1 1 tone of the chord before");
  CHECK(before.role == Role::chord_tone);
  CHECK(before.against == Against::previous);
  const Pin next = one("1 1 root of the next chord");
  CHECK(next.figure == Figure::root);
  CHECK(next.against == Against::next);
  CHECK(one("1 1 third of this chord").against == Against::sounding);
  const Pin both = one("1 1 tension b9");
  CHECK(both.role == Role::tension);
  CHECK(both.degree == Degree{9, -1});
}

TEST_CASE("comments and empty lines say nothing, and a sharp is no comment") {
  const HearingReading reading = read("# a word\n\n#1 1 tension\n1 1 #9 # heard so\r\n   # 1 2 root\n1 2 root #\n");
  REQUIRE(reading.pins.size() == 2);
  CHECK(reading.pins[0].degree == Degree{9, 1});
  CHECK(reading.places[1].line == 6);
}

TEST_CASE("triplets are fractions, or decimals that come near") {
  CHECK(one("2 4/3 root").onset == Beats(13, 3));
  CHECK(one("2 1.33 root").onset == Beats(13, 3));
  CHECK(one("2 1.67 root").onset == Beats(14, 3));
}

TEST_CASE("grace notes are told apart from their note and from each other") {
  CHECK(one("1 3 root").grace == 0);
  CHECK(one("1 3 second grace note approach tone").grace == 2);
  CHECK(one("1 3 first grace 5").grace == 1);
  CHECK(one("2 2 grace b9").grace == 1);
  CHECK_THAT(error("1 3 grace root"), Contains("2 grace notes stand there; write which, as in 'first grace'"));
  CHECK_THAT(error("1 3 third grace root"), Contains("no third grace note stands there; it has 2"));
  CHECK_THAT(error("1 1 grace root"), Contains("no grace note begins on beat 1 of bar 1; they begin on 3"));
  CHECK_THAT(error("2 2 grace"), Contains("a line has a bar") || Contains("does not say what"));
}

TEST_CASE("lines about one note are taken together, and refused where they contradict each other") {
  const Pin pin = one("1 1 tension\n1 1 b9\n1 1 tension\n");
  CHECK(pin.role == Role::tension);
  CHECK(pin.degree == Degree{9, -1});
  for (const char* const second : {"1 1 chord tone", "1 1 passing tone", "1 1 outside"})
    CHECK_THAT(error(std::string("1 1 tension\n") + second), StartsWith("solo.hearing:2:1: this contradicts line 1"));
  CHECK_THAT(error("1 1 b9\n\n1 1 9"), StartsWith("solo.hearing:3:1: this contradicts line 1"));
  CHECK_THAT(error("1 1 root of the next chord\n1 1 root of the chord before"), Contains("contradicts"));
  CHECK_THAT(error("1 1 third\n1 1 neighbour tone"), Contains("contradicts"));
  CHECK_THAT(error("1 1 anticipation\n1 1 fifth of the chord before"), Contains("contradicts"));
}

TEST_CASE("where notes begin is told without leaving one out") {
  const auto solo = insideline::tests::solo_from("C4:3/2 D4:5/2 E4:1 | C4:5", {5, 4});
  CHECK_THROWS_WITH(parse_hearing("1 2 tension", "solo.hearing", solo),
                    Contains("no note begins on beat 2 of bar 1; they begin on 1, 2.5, 5"));
}

TEST_CASE("an error names the line, what was found and what to do") {
  const auto [text, message] = GENERATE(table<std::string, std::string>({
      {"1 1 neigbour", "solo.hearing:1:5: 'neigbour' says nothing here; the words are: chord tone, tension"},
      {"\n1 1 tension of G7", "solo.hearing:2:13: 'of' says nothing here"},
      {"1 1 passing tone third", "solo.hearing:1:18: 'third' does not go with what this line says before it"},
      {"1 1 of the next chord", "solo.hearing:1:5: it does not say what the note is"},
      {"1 tension", "solo.hearing:1:1: a line has a bar, a beat and what the note is"},
      {"one 1 tension", "solo.hearing:1:1: 'one' is not the number of a bar"},
      {"9 1 tension", "solo.hearing:1:1: there is no bar 9; the solo has bars 1 to 2"},
      {"1 x tension", "solo.hearing:1:3: 'x' is not a beat, such as 1, 2.5 or 7/3"},
      {"1 1.5 tension", "solo.hearing:1:3: no note begins on beat 1.5 of bar 1; they begin on 1, 2, 2.5, 3, 4"},
      {"1 9000000000000000000 tension", "solo.hearing:1:3: '9000000000000000000' is not a beat"},
  }));
  CHECK_THAT(error(text), StartsWith(message));
}
