#include "tests/io/musicxml/score_shorthand.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

using insideline::Beats;
using insideline::Extent;
using insideline::io::RoadMap;
using insideline::tests::chords_of;
using insideline::tests::read_line;
using insideline::tests::warning_lines;
using std::string;

namespace {

/// A chord symbol with a root like "Bb", a kind, and what may follow the kind.
string chord(const string& root, const string& kind, const string& more = {}) {
  const int alter = root.ends_with('b') ? -1 : root.ends_with('#') ? 1 : 0;
  return fmt::format(
      "{{<harmony><root><root-step>{}</root-step><root-alter>{}</root-alter></root><kind>{}</kind>{}</harmony>}} ",
      root.substr(0, 1), alter, kind, more);
}

}  // namespace

TEST_CASE("a chord symbol sounds from its place to the next, the last to the end") {
  const auto [line, expected] = GENERATE_COPY(table<string, string>({
      {chord("C", "major-seventh") + "C4:4 | D4:4", "Cmaj7@0:8"},
      {chord("D", "minor-seventh") + "C4:2 " + chord("G", "dominant") + "D4:2 | " + chord("C", "major") + "E4:4",
       "Dm7@0:2 G7@2:2 C@4:4"},
      {"C4:2 " + chord("Bb", "dominant") + "D4:2", "Bb7@2:2"},
      {chord("C", "dominant") + chord("F", "dominant", "<offset>24</offset>") + "C4:4", "C7@0:2 F7@2:2"},
      {"C4:4 " + chord("F", "dominant", "<offset>-24</offset>"), "F7@2:2"},
      {chord("C", "major") + "C4:2 {<harmony><kind>none</kind></harmony>} D4:2 | " + chord("G", "dominant") + "E4:4",
       "C@0:2 N.C.@2:2 G7@4:4"},
      {chord("G", "dominant") + "C4:1 | " + chord("C", "major") + "D4:4", "G7@-1:1 C@0:4"},
      {chord("C", "dominant", "<bass><bass-step>E</bass-step></bass>") + "C4:4", "C7/E@0:4"},
      {chord("C", "dominant",
             "<degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></"
             "degree>") +
           "C4:4",
       "C7b9@0:4"},
      {chord("C", "major") +
           "{<harmony type=\"alternate\"><root><root-step>A</root-step></root><kind>minor</kind></harmony>} C4:4",
       "C@0:4"},
      {"{<harmony><numeral><numeral-root>5</numeral-root></numeral><kind>dominant</kind></harmony>} C4:4", "G7@0:4"},
      {"C4:4", "none"},
  }));
  CHECK(chords_of(read_line(line)) == expected);
}

TEST_CASE("where a repeat leads to a place without a symbol, the chord written before it holds") {
  const auto score =
      read_line(chord("C", "major") + "C4:4 | {<barline><repeat direction=\"forward\"/></barline>} D4:4 | " +
                chord("G", "dominant") + "E4:4 {<barline><repeat direction=\"backward\"/></barline>}");
  CHECK(chords_of(score) == "C@0:8 G7@8:4 C@12:4 G7@16:4");
}

TEST_CASE("chord symbols of a score are written once and count from the first full bar") {
  const auto score =
      read_line("C4:1 | {<direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>} " +
                chord("C", "major") + "D4:4 | E4:4");
  REQUIRE(score.changes);
  CHECK(score.changes->extent == Extent::once);
  CHECK(score.changes->pickup == Beats(1));
  REQUIRE(score.changes->bars.size() == 2);
  CHECK(score.changes->bars[0].onset == Beats(0));
  CHECK(score.changes->bars[1].section == "A");
}

TEST_CASE("rehearsal marks are sections, each time that their bar is played") {
  const auto mark = [](const string& name) {
    return "{<direction><direction-type><rehearsal>" + name + "</rehearsal></direction-type></direction>} ";
  };
  const string back = "{<barline><repeat direction=\"backward\"/></barline>} ";
  const string forward = "{<barline><repeat direction=\"forward\"/></barline>} ";
  const auto [line, expected] = GENERATE_COPY(table<string, string>({
      {mark("A") + "C4:4 | D4:4 | " + mark("B") + "E4:4", "A@0 B@8"},
      {mark("A") + "C4:4 | D4:4 " + back + "| " + mark("B") + "E4:4", "A@0 A@8 B@16"},
      {mark("A") + "C4:4 | " + forward + "D4:4 | " + mark("B") + "E4:4 " + back, "A@0 B@8 A@12 B@16"},
      {"C4:1 | " + mark("A") + "D4:4 | E4:4", "A@0"},
      {mark("A") + "C4:1 | D4:4 | E4:4", "A@0"},  // in the pickup
      {"C4:4 | " + mark(" ") + "D4:4", ""},
  }));
  CAPTURE(line);
  string marks;
  for (const auto& found : read_line(line).solo.marks)
    marks += (marks.empty() ? "" : " ") + found.name + "@" + to_string(found.onset);
  CHECK(marks == expected);
}

TEST_CASE("double bar lines of a score are known, at either side of a bar, and none at the end") {
  const auto bar_line = [](const string& style, const string& location) {
    return "{<barline location=\"" + location + "\"><bar-style>" + style + "</bar-style></barline>} ";
  };
  const auto [line, expected] = GENERATE_COPY(table<string, string>({
      {"C4:4 " + bar_line("light-light", "right") + "| D4:4 | E4:4", "4 "},
      {"C4:4 | D4:4 | " + bar_line("light-light", "left") + "E4:4", "8 "},
      {"C4:4 " + bar_line("light-heavy", "right") + "| D4:4 | E4:4 " + bar_line("light-light", "right"), ""},
  }));
  string lines;
  for (const Beats& place : read_line(line).solo.double_bars) lines += to_string(place) + " ";
  CHECK(lines == expected);
}

TEST_CASE("a chord in an ending that this pass does not play does not hold on") {
  const string first =
      "{<barline><ending number=\"1\" type=\"start\"/></barline>} " + chord("G", "dominant") +
      "D4:4 {<barline><ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\"/></barline>} | ";
  const string second =
      "{<barline><ending number=\"2\" type=\"start\"/></barline>} E4:4 "
      "{<barline><ending number=\"2\" type=\"stop\"/></barline>} | ";
  CHECK(chords_of(read_line(chord("C", "major") + "C4:4 | " + first + second + "F4:4")) == "C@0:4 G7@4:4 C@8:12");
  CHECK(chords_of(read_line(chord("C", "major") + "C4:4 | " + first + "F4:4")) == "C@0:4 G7@4:4 C@8:8");
  // Nor where a repeat begins right after it.
  CHECK(chords_of(read_line(chord("C", "major") + "C4:4 | " + first +
                            "{<barline><repeat direction=\"forward\"/></barline>} E4:4 | " + chord("F", "major") +
                            "F4:4 {<barline><repeat direction=\"backward\"/></barline>}")) ==
        "C@0:4 G7@4:4 C@8:8 F@16:4 C@20:4 F@24:4");
}

TEST_CASE("several symbols over one long note share it as a player reads them, and that is told") {
  const string three = chord("C", "major") + chord("A", "minor") + chord("G", "dominant");
  const auto [line, expected] = GENERATE_COPY(table<string, string>({
      {chord("C", "major") + chord("A", "minor") + "C4:4", "C@0:2 Am@2:2"},
      {three + "C4:4", "C@0:2 Am@2:1 G7@3:1"},
      {three + "C4:3 D4:1", "C@0:1 Am@1:1 G7@2:2"},
      {"C4:2 " + chord("C", "major") + chord("A", "minor") + "D4:2", "C@2:1 Am@3:1"},
      {chord("C", "major") + chord("A", "minor") + "r:4 | C4:4", "C@0:2 Am@2:6"},
      {chord("C", "major") + chord("A", "minor") + "C4:1 D4:3", "C@0:1/2 Am@1/2:7/2"},
      {chord("C", "major") + chord("A", "minor") + chord("F", "major", "<offset>24</offset>") + "C4:4",
       "C@0:1 Am@1:1 F@2:2"},
  }));
  const auto score = read_line(line);
  CHECK(chords_of(score) == expected);
  CHECK(warning_lines(score).find("1 place has several chord symbols over one note; they share it (bar 1)") !=
        string::npos);
}

TEST_CASE("two different symbols where no long note begins: the first is taken and told") {
  const auto score = read_line(chord("C", "major") + chord("A", "minor") + "C4:1/2 D4:7/2");
  CHECK(chords_of(score) == "C@0:4");
  CHECK(warning_lines(score).find("1 place has two chord symbols; the first was taken (bar 1)") != string::npos);
}

TEST_CASE("a chord symbol nobody can read counts as N.C., with its place and what is near") {
  const auto [symbol, expected] = GENERATE_COPY(table<string, string>({
      {chord("C", "dominant-eleventhh"), "did you mean \"dominant-11th\""},
      {"{<harmony><root><root-step>H</root-step></root><kind>major</kind></harmony>}",
       "\"H\" is not the root of a chord"},
      {"{<harmony><kind>major</kind></harmony>}", "a chord symbol without a <root>"},
      {"{<harmony><root><root-step>C</root-step></root></harmony>}", "a chord symbol without a <kind>"},
      {"{<harmony><root><root-step>C</root-step></root><kind/></harmony>}", "a chord symbol without a <kind>"},
      {chord("C", "dominant", "<degree><degree-value>9</degree-value><degree-type>bend</degree-type></degree>"),
       "\"bend\" is no way to change a chord"},
      {chord("C", "dominant", "<degree><degree-value>99</degree-value><degree-type>add</degree-type></degree>"),
       "this degree cannot be read"},
  }));
  const auto score = read_line("C4:4 | " + symbol + " C4:4 | " + chord("F", "major") + "F4:4");
  CHECK(chords_of(score) == "N.C.@4:4 F@8:4");
  CHECK(warning_lines(score).starts_with("line.musicxml:1:"));
  CHECK(warning_lines(score).find(": 1 chord symbol cannot be read and counts as N.C. (bar 2): ") != string::npos);
  CHECK(warning_lines(score).find(expected) != string::npos);
}

TEST_CASE("a kind that is only printed is read from its print") {
  CHECK(chords_of(read_line("{<harmony><root><root-step>C</root-step></root><kind text=\"m7\"/></harmony>} C4:4")) ==
        "Cm7@0:4");
}

TEST_CASE("an offset that leads out of the bar is told") {
  const string told = "1 chord symbol stands outside of its bar by its offset and was put at the bar line (bar 2)";
  const auto before = read_line("C4:4 | " + chord("C", "major", "<offset>-12</offset>") + "C4:4");
  CHECK(chords_of(before) == "C@4:4");
  CHECK(warning_lines(before).find(told) != string::npos);
  const auto behind = read_line("C4:4 | " + chord("C", "major", "<offset>60</offset>") + "C4:4 | D4:4");
  CHECK(chords_of(behind) == "C@8:4");
  CHECK(warning_lines(behind).find(told) != string::npos);
  CHECK(read_line("C4:4 | " + chord("C", "major", "<offset>48</offset>") + "C4:4 | D4:4").warnings.empty());
}

TEST_CASE("symbols that end long before the score does are told, a chord that always had much room is not") {
  const string symbols = chord("C", "major") + "C4:4 | " + chord("F", "major") + "C4:4";
  string rest;
  for (int bar = 0; bar < 8; ++bar) rest += " | D4:4";
  const string told = "8 bars have no chord symbol after the last one, which was held to the end";
  CHECK(warning_lines(read_line(symbols + rest)).find(told) != string::npos);
  CHECK(read_line(symbols + " | D4:4 | D4:4 | D4:4 | D4:4 | D4:4 | D4:4 | D4:4").warnings.empty());
  const string vamp = chord("D", "minor-seventh") + "D4:4" + rest.substr(0, 16) + " | " + chord("E", "minor") + "D4:4";
  CHECK(read_line(vamp + rest).warnings.empty());
  CHECK(read_line(chord("D", "minor-seventh") + "D4:4" + rest).warnings.empty());
}

TEST_CASE("a chord whose print contradicts its kind is told once") {
  const auto [kind, text, contradicts] = GENERATE(table<string, string, bool>({
      {"major", "m7", true},
      {"major", "7", true},
      {"minor", "7", true},
      {"diminished", "m7b5", true},
      {"suspended-fourth", "7sus4", true},
      {"major-seventh", "maj7", false},
      {"major-seventh", "maj", false},
      {"dominant", "7", false},
      {"dominant", "13", false},
      {"minor-seventh", "-7", false},
      {"half-diminished", "m7b5", false},
      {"minor", "something", false},
  }));
  const string symbol = fmt::format(
      "{{<harmony><root><root-step>C</root-step></root><kind text=\"{}\">{}</kind></harmony>}} ", text, kind);
  const auto score = read_line(symbol + "C4:4 | " + chord("F", "major") + "C4:4 | " + symbol + "C4:4");
  const string told = warning_lines(score);
  CAPTURE(kind, text, told);
  CHECK((told.find("printed otherwise than the file means") != string::npos) == contradicts);
  if (contradicts) CHECK(told.find(fmt::format(": C{} on the page", text)) != string::npos);
}
