// Charts as people type them, and that what could be read before means what it meant.
#include "io/changes/typed_habits.hpp"

#include "io/changes/changes_file.hpp"
#include "tests/io/changes/chart_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>

using Catch::Matchers::Contains;
using insideline::io::ChartReading;
using insideline::io::parse_changes;
using insideline::io::parse_chart;
using insideline::tests::chart_error;
using insideline::tests::played;
using std::string;

TEST_CASE("a chart may be typed loosely") {
  const auto [text, bars] = GENERATE(table<string, string>({
      {"| C, F, G7 |", "C 2 F 1 G7 1"},                                // commas between chords
      {"| C,F | G7 , C |", "C 2 F 2 | G7 2 C 2"},                      //
      {"| bb7 | eb | f#m7 b7 |", "Bb7 | Eb | f#m7 2 B7 2"},            // small letters
      {"| C x x F | C - F - |", "C 3 F 1 | C 2 F 2"},                  // held with x and -
      {"| C - | x | F |", "C | C | F"},                                //
      {"| C | (Dm7 G7) |", "C | Dm7 2 G7 2"},                          // a turn-around in parentheses
      {"| C | (Am7 | Dm7, G7) |", "C | Am7 | Dm7 2 G7 2"},             //
      {"| C | | F | G7 | |", "C | C | F | G7 | G7"},                   // empty bars
      {"| C | F | x3", "C | F | C | F | C | F"},                       // a line played three times
      {"| G |\n| C | F | (2x)\n| G |", "G | C | F | C | F | G"},       //
      {"| F7 x3 | C |", "F7 | F7 | F7 | C"},                           // a bar played three times
      {"| C | F G7 (2x) |", "C | F 2 G7 2 | F 2 G7 2"},                //
      {"|: C |1. F x2 :|2. G x2 |", "C | F | F | C | G | G"},          //
      {"| C | ./. | \U0001D10E |", "C | C | C"},                       // other signs for %
      {"| C/// | F/ G7/ | C ///|", "C | F 2 G7 2 | C"},                // slashes without blanks
      {"1. | C | F |\n3. | G7 | C |", "C | F | G7 | C"},               // numbers with full stops
      {"|: C |[1. F :|[2. G |", "C | F | C | G"},                      // endings with brackets
      {"[| C | F |]", "C | F"},                                        // a double bar to begin with
      {"| C | F |\n---\n| G7 |", "C | F | G7"},                        // a ruler between the lines
      {"3/4\n| C | F . G7 |", "C 3 | F 2 G7 1"},                       // a meter without its name
      {"Quay Song\ntime: 3/4\n| C |", "C 3"},                          //
      {"\u2502\u2009C\u202F\uFF5CF\u200B|", "C | F"},                  // blanks and bars of other keyboards
      {"1 | C | F |\n3 | G7 | C |", "C | F | G7 | C"},                 // numbers in front of lines
      {"1: C | F |\n3) G7 | C |", "C | F | G7 | C"},                   //
      {"| 1 C | 2 F | 3 G7 |", "C | F | G7"},                          // numbers in front of bars
      {"A: | C | F |\nB: | G7 | C |", "C | F | G7 | C"},               // sections
      {"Bridge:\n| C | F |", "C | F"},                                 //
      {"form: A B A\nA: | C |\nB: | F |", "C | F | C"},                //
      {"Quay Song\n| C | F |", "C | F"},                               // a title
      {"A Lantern in the Fog\nkey: C\n| C | F |", "C | F"},            //
      {"tempo: 160\ncomposer: the evening class\n| C | F |", "C | F"}  //
  }));
  CAPTURE(text);
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("what could be read before means what it meant") {
  const auto [text, bars] = GENERATE(table<string, string>({
      {"C F G7\n| C | F |", "C 2 F 1 G7 1 | C | F"},       // a first line of chords is no title
      {"A\n| C | F |", "A | C | F"},                       // nor is a single letter that is a chord
      {"|: C | F :| x3", "C | F | C | F | C | F"},         //
      {"| C | x | C/E |", "C | C | C/E"},                  //
      {"|: C |\n1. | F :|\n2. | G |", "C | F | C | G"},    // an ending on a line of its own is no bar number
      {"|: C |1. F :|2. G |", "C | F | C | G"},            // endings are no bar numbers
      {"C:maj7 | D:min7", "C:maj7 | D:min7"},              // a chord with a colon is no section
      {"| C(b9) | C7(b9, #11) |", "C(b9) | C7(b9, #11)"},  // parentheses and commas of a chord
      {"| C7b9,#11 | F |", "C7b9,#11 | F"},                //
      {"A:|C|F|", "A | A | C | F"},                        // ":|" behind a chord ends a repeat
  }));
  CAPTURE(text);
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("the first line is the title, unless a header gives one") {
  CHECK(parse_changes("Quay Song\n| C |", "a.changes").title == "Quay Song");
  CHECK(parse_changes("Quay Song\ntitle: Harbour\n| C |", "a.changes").title == "Harbour");
  CHECK(parse_changes("| C |\n", "a.changes").title.empty());
}

TEST_CASE("the tempo is quarter notes a minute") {
  CHECK(parse_chart("tempo: 160\n| C |", "a.changes").tempo_bpm == 160.0);
  CHECK(parse_chart("tempo: 92 bpm\n| C |", "a.changes").tempo_bpm == 92.0);
  CHECK_FALSE(parse_chart("| C |", "a.changes").tempo_bpm);
}

TEST_CASE("a letter before a line of bars names its section") {
  const auto changes = parse_changes("A: | C | F |\n| G |\nBridge: | G7 |", "a.changes");
  REQUIRE(changes.bars.size() == 4);
  CHECK(changes.bars[2].section == "A");
  CHECK(changes.bars[3].section == "Bridge");
}

TEST_CASE("what may have been meant otherwise is told with its place") {
  const ChartReading empty = parse_chart("| C | | F |", "a.changes");
  REQUIRE(empty.warnings.size() == 1);
  CHECK(to_string(empty.warnings[0]) == "a.changes:1:7: bar 2 is empty: the chord before goes on");
  const ChartReading small = parse_chart("| am7 | bb7 | e |", "a.changes");
  REQUIRE(small.warnings.size() == 1);
  CHECK(to_string(small.warnings[0]) ==
        "a.changes:1:9: roots in small letters were read as capitals: bb7 as Bb7, e as E; a small letter does not mean "
        "minor here");
  const ChartReading times = parse_chart("| F7 x3 | C |", "a.changes");
  REQUIRE(times.warnings.size() == 1);
  CHECK(to_string(times.warnings[0]) == "a.changes:1:6: bar 1 is played 3 times, as \"x3\" says");
  const ChartReading letter = parse_chart("A\n| C | F |\nB | G7 | C |\n", "a.changes");
  REQUIRE(letter.warnings.size() == 2);
  CHECK(to_string(letter.warnings[0]) == "a.changes:1:1: bar 1 is the chord A; a section is written [A] or A:");
  CHECK(to_string(letter.warnings[1]) == "a.changes:3:1: bar 4 is the chord B; a section is written [B] or B:");
  CHECK(parse_chart("C | F | G7 | C\n", "a.changes").warnings.empty());
  CHECK(parse_chart("| C - | (Dm7 G7) |", "a.changes").warnings.empty());
}

TEST_CASE("what stays unclear is refused as before") {
  CHECK_THAT(chart_error("| C |1 F |"), Contains("an ending is written |1. with a full stop"));
  CHECK_THAT(chart_error("| C | 4 F |"), Contains("an ending is written |1. with a full stop"));
  CHECK_THAT(chart_error("(C | F) x2"), Contains("bar 2: \"x2\" stands behind a parenthesis over several bars"));
  CHECK_THAT(chart_error("| x3 | F |"), Contains("cannot be read"));
  CHECK_THAT(chart_error("| C // F F |"), Contains("bar 1 has 5 beats, but 4/4 has 4"));
  CHECK_THAT(chart_error("| C x100 | F |"), Contains("cannot be read"));
  CHECK_THAT(chart_error("{\\rtf1 | C | F |}"), Contains("this is rich text; save the changes as plain text"));
  CHECK_THAT(chart_error("| C | hm7 |"), Contains("bar 2: chord \"hm7\" cannot be read"));
  CHECK_THAT(chart_error("| - C | F |"), Contains("no chord stands before this -"));
  CHECK_THAT(chart_error("| C - - | F |"), Contains("bar 1 has 3 beats, but 4/4 has 4"));
  CHECK_THAT(chart_error("| C | (Dm7 hm7) |"), Contains("cannot be read"));
  CHECK_THAT(chart_error("Quay Song"), Contains("cannot be read"));
}
