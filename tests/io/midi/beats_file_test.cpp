#include "io/midi/beats_file.hpp"

#include "io/read_result.hpp"
#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/io/midi/smf_bytes.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::io::parse_beats_file;
using insideline::io::ReadError;
using insideline::tests::midi_file;
using insideline::tests::notes_of;
using insideline::tests::read_midi;

TEST_CASE("beats are one time a line, with or without numbers, comments and commas") {
  const auto beats = parse_beats_file("# tapped\n0.5, 1\n1.02\t2\r\n\n1.49 3 # late\n", "taps.txt");
  REQUIRE(beats.size() == 3);
  CHECK(beats[1].seconds == Approx(1.02));
  CHECK(beats[2].number == 3);
  CHECK_FALSE(parse_beats_file("1\n2\n", "taps.txt")[0].number);
}

TEST_CASE("beats that cannot be used are errors with their place") {
  const auto [text, message] = GENERATE(table<std::string, std::string>({
      {"1\nx\n", "taps.txt:2:1: 'x' is not a time in seconds"},
      {"1\nnan\n", "taps.txt:2:1: 'nan' is not a time in seconds"},
      {"1\n-2\n", "taps.txt:2:1: '-2' is not a time in seconds"},
      {"2\n1\n", "taps.txt:2:1: the beat at 1 s does not come after the one at 2 s"},
      {"1 0\n", "taps.txt:1:3: '0' is not the number of a beat"},
      {"1 1 1\n", "taps.txt:1:5: a line has a time in seconds"},
      {"1\n", "taps.txt: fewer than two beats"},
      {"1 1\n2\n", "taps.txt: some beats have a number and some have none"},
  }));
  CHECK_THROWS_AS(parse_beats_file(text, "taps.txt"), ReadError);
  CHECK_THROWS_WITH(parse_beats_file(text, "taps.txt"), Catch::Contains(message));
}

TEST_CASE("a rubato recording is written by its tapped beats") {
  // Beats slow down from 0.5 to 0.8 s; the notes are eighths on them. At 120 and 480 ticks a quarter, 960 ticks a
  // second.
  insideline::io::ReadOptions options;
  options.beats = parse_beats_file("1 1\n1.5 2\n2.1 3\n2.8 4\n3.6 1\n4.4 2\n", "taps.txt");
  const auto read = read_midi(midi_file({{"",
                                          "C5@965+230 D5@1197+230 E5@1444+280 F5@1730+280 G5@2020+320 A5@2350+300 "
                                          "B5@2690+380 C6@3080+350 D6@3450+700",
                                          1,
                                          {}}}),
                              options);
  CHECK(notes_of(read.solo) ==
        "C5@0+1/2 D5@1/2+1/2 E5@1+1/2 F5@3/2+1/2 G5@2+1/2 A5@5/2+1/2 B5@3+1/2 C6@7/2+1/2 D6@4+1");
  CHECK(read.solo.performed.size() == 9);
  CHECK(read.solo.performed[4].quarter_seconds == Approx(0.7));
}

TEST_CASE("taps that do not reach as far as the line are told, a beat more or less is not") {
  const auto warnings_with = [](const std::string& taps) {
    insideline::io::ReadOptions options;
    options.beats = parse_beats_file(taps, "taps.txt");
    return insideline::tests::warnings_of(
        read_midi(midi_file({{"", "C5@970+460 D5@1445+460 E5@1930+460 F5@2400+460", 1, {}}}), options));
  };
  CHECK(warnings_with("1 1\n1.5 2\n2 3\n").empty());
  CHECK(warnings_with("1.5 2\n2 3\n2.5 4\n").empty());
  CHECK(warnings_with("1 1\n1.5 2\n") ==
        "the beats run from 1.0 to 1.5 s and the line from 1.0 to 3.0 s: 1 note outside was read at the tempo of the "
        "nearest two beats; tap all of it\n");
  CHECK_THAT(warnings_with("2.0 1\n2.5 2\n"), Catch::Contains("1 note outside was read"));
}

TEST_CASE("tapped beats that begin before the downbeat make a pickup") {
  insideline::io::ReadOptions options;
  options.beats = parse_beats_file("0 3\n0.5 4\n1 1\n1.5 2\n2 3\n2.5 4\n3 1\n", "taps.txt");
  const auto read = read_midi(midi_file({{"", "G4@487+470 C5@964+900", 1, {}}}), options);
  CHECK(notes_of(read.solo) == "G4@-1+1 C5@0+2");
}
