#include "io/changes/changes_file.hpp"

#include "analyzer/model/sections.hpp"
#include "io/read_result.hpp"
#include "tests/io/changes/chart_shorthand.hpp"
#include "tests/support/folders.hpp"

#include <string>

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::Beats;
using insideline::Extent;
using insideline::io::parse_changes;
using insideline::io::read_changes;
using insideline::io::ReadError;
using insideline::tests::chart_error;
using insideline::tests::played;
using insideline::tests::whole_chart_error;

TEST_CASE("the chart of the handbook is read bar for bar") {
  const auto changes = parse_changes(
      "title: Lantern Street\nkey: Eb\nmeter: 4/4\n\n"
      "# bars between bar lines; chords in a bar share it equally unless beats are given\n"
      "| Ebmaj7     | Cm7      | Fm7      | Bb7   |\n"
      "| Gm7 C7(b9) | Fm7 Bb7  | Ebmaj7   | %     |\n",
      "lantern.changes");
  CHECK(played(changes) == "Ebmaj7 | Cm7 | Fm7 | Bb7 | Gm7 2 C7(b9) 2 | Fm7 2 Bb7 2 | Ebmaj7 | Ebmaj7");
  CHECK(changes.extent == Extent::looping);
  CHECK(form_length(changes) == Beats(32));
}

TEST_CASE("a bar is read as a musician types it") {
  const auto [text, bars] = GENERATE(table<std::string, std::string>({
      {"| C F G7 |", "C 2 F 1 G7 1"},
      {"| Gm7 . . C7 |", "Gm7 3 C7 1"},
      {"| Gm7 .. C7 |", "Gm7 3 C7 1"},
      {"| Gm7.. C7 |", "Gm7 3 C7 1"},
      {"| Gm7 / / C7 |", "Gm7 3 C7 1"},
      {"| C . F . |", "C 2 F 2"},
      {"| C . . . |", "C"},
      {"| C | / / F / |", "C | C 2 F 2"},
      {"| C | % | % |", "C | C | C"},
      {"| C F | % |", "C 2 F 2 | C 2 F 2"},
      {"| N.C. | C N.C. |", "N.C. | C 2 N.C. 2"},
      {"| N.C. . . C |", "N.C. 3 C 1"},
      {"| C/E | Bb/D F/C |", "C/E | Bb/D 2 F/C 2"},
  }));
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("the layout of the page does not matter") {
  const auto text = GENERATE(as<std::string>{}, "| C | F | G7 | C |\n",
                             "| C | F | G7 | C |",           // no line end
                             "C | F | G7 | C",               // no bar lines outside
                             "|C|F|G7|C|",                   // no spaces
                             "C | F\nG7 | C",                // a line end ends the bar
                             "| C | F |\n\n\n| G7 | C |\n",  // blank lines
                             "|| C | F || G7 | C |]",        // double bars and a final one
                             "\t|\tC\t|\tF\t|\tG7\t|\tC\t|\t",
                             "| C | F |\r\n| G7 | C |\r\n",        // lines of Windows
                             "| C | F |\r| G7 | C |\r",            // lines of old Macs
                             "\xEF\xBB\xBF| C | F | G7 | C |",     // a byte order mark
                             "\xC2\xA0| C\xC2\xA0| F | G7 | C |",  // no-break spaces
                             "# a comment\n| C | F | # to the end | of the line\n| G7 | C | #\n",
                             "   # not in the first column\n| C | F | G7 | C |");
  CHECK(played(parse_changes(text, "a.changes")) == "C | F | G7 | C");
}

TEST_CASE("a sharp is not a comment") {
  CHECK(played(parse_changes("| C#m7 | F#7 | C7#9 |", "a.changes")) == "C#m7 | F#7 | C7#9");
  CHECK(parse_changes("title: Study #2\n| C |", "a.changes").title == "Study #2");
  CHECK(parse_changes("title: Study # two\n| C |", "a.changes").title == "Study");
}

TEST_CASE("a chord in the academic syntax may begin a line without being a header") {
  CHECK(played(parse_changes("C:maj7 | D:min7", "a.changes")) == "C:maj7 | D:min7");
}

TEST_CASE("sections name their bars") {
  const auto changes = parse_changes("[A]\n| C | F |\n[B] | G7 |", "a.changes");
  REQUIRE(changes.bars.size() == 3);
  CHECK(changes.bars[1].section == "A");
  CHECK(changes.bars[2].section == "B");
  CHECK(changes.bars[2].onset == Beats(8));
}

TEST_CASE("a section begins each time that its letter is come to") {
  const auto [text, expected] = GENERATE(table<std::string, std::string>({
      {"[A] | C | F |\n[B] | G7 |", "A2 B1"},
      {"[A] |: C | F :| [B] | G7 |", "A2 A2 B1"},
      {"form: A A B A\n[A] | C | F |\n[B] | G7 |", "A2 A2 B1 A2"},
      {"| C |\nBridge: | F | G7 |", "Bridge2"},
      {"| C | F |", ""},
  }));
  std::string sections;
  for (const auto& section : sections_of(parse_changes(text, "a.changes")))
    sections += (sections.empty() ? "" : " ") + section.name + std::to_string(section.bars);
  CHECK(sections == expected);
}

TEST_CASE("bars of other meters are filled as well") {
  CHECK(played(parse_changes("meter: 3/4\n| C F | G7 . C | Am |", "a.changes")) == "C 2 F 1 | G7 2 C 1 | Am 3");
  CHECK(played(parse_changes("meter: 6/8\n| C F | G7 . . . . C |", "a.changes")) == "C 3/2 F 3/2 | G7 5/2 C 1/2");
}

TEST_CASE("a meter between the bars holds from there on, also where a repeat comes back to it") {
  const auto changes = parse_changes("[A] |: C | %\nmeter: 2/4\n| G7 F |\nmeter: 4/4\n| C F :|\n", "a.changes");
  CHECK(played(changes) == "C | C | G7 1 F 1 | C 2 F 2 | C | C | G7 1 F 1 | C 2 F 2");
  CHECK_FALSE(changes.meter.has_value());
  CHECK(changes.bars[2].meter == insideline::Meter{2, 4});
  CHECK(changes.bars[2].onset == Beats(8));
  CHECK(changes.bars[2].length == Beats(2));
  CHECK_FALSE(changes.bars[3].meter.has_value());
  CHECK(changes.bars[3].onset == Beats(10));
  CHECK(form_length(changes) == Beats(28));
}

TEST_CASE("a repeat sign for a bar of another meter holds its one chord, and is refused where it has several") {
  CHECK(played(parse_changes("| C |\nmeter: 3/4\n| % | F |", "a.changes")) == "C | C 3 | F 3");
  CHECK(chart_error("| C F |\nmeter: 3/4\n| % |") == "3:3: bar 2: % repeats a bar of another meter; write its chords");
}

TEST_CASE("a bar that cannot be read is an error naming line and bar") {
  const auto [text, message] = GENERATE(table<std::string, std::string>({
      {"| C | Gm7 . C7 |",
       "1:7: bar 2 has 3 beats, but 4/4 has 4; a chord counts one beat and each dot after it one more"},
      {"| C |\n| F . . . . |",
       "2:3: bar 2 has 5 beats, but 4/4 has 4; a chord counts one beat and each dot after it one more"},
      {"meter: 3/4\n| C . F . |",
       "2:3: bar 1 has 4 beats, but 3/4 has 3; a chord counts one beat and each dot after it one more"},
      {"| C D E F G |", "1:3: bar 1: 5 chords do not share the 4 beats of 4/4 evenly; write 4 or fewer, or 8"},
      {"| % | C |", "1:3: bar 1: % repeats the bar before, and there is none"},
      {"| C | F % |", "1:9: bar 2: % repeats a whole bar and stands alone in its own"},
      {"| . C . . |", "1:3: bar 1: no chord stands before this ."},
      {"| | C |", "1:3: bar 1 is empty, and no chord stands before it; write a chord or N.C."},
      {"| C [B] F |", "1:5: section [B] begins inside bar 1; put it before a bar line"},
      {"| C |\n[B", "2:1: this section has no ]; a section is written [A]"},
      {"[ ] | C |", "1:1: this section has no name; write [A]"},
      {"[A] [B] | C |", "1:1: section [A] has no bars"},
      {"| C |\n[B]\n", "2:1: section [B] has no bars"},
      {"| C | D.C. |",
       "1:7: bar 2: \"D.C.\": jumps are not read; name sections like [A] and put their order in the header form"},
      {"| C |1 F |", "1:6: bar 2: \"1\": an ending is written |1. with a full stop, right after its bar line"},
      {"| C #maj |", "1:5: bar 1: \"#maj\": a comment needs white space after its #"},
  }));
  CHECK(chart_error(text) == message);
}

TEST_CASE("a chord that nobody can read is shown with its bar, its place and the nearest readings") {
  const std::string error = whole_chart_error("title: x\n| Dm7 | G7 | Cmaj7 | Xm7 |\n");
  CHECK_THAT(error, Catch::StartsWith("a.changes:2:22: bar 4: chord \"Xm7\" cannot be read: "));
  CHECK_THAT(error, Contains("\n  | Dm7 | G7 | Cmaj7 | Xm7 |\n                       ^"));
  CHECK_THAT(whole_chart_error("| Cmaj7x |"), Contains("; nearest: "));
}

TEST_CASE("a file without bars is no chart") {
  CHECK_THAT(whole_chart_error("title: x\n"), Contains("a.changes: there are no bars; write chords between bar lines"));
  CHECK_THAT(whole_chart_error("# nothing\n\n"), Contains("a.changes: there are no bars"));
  CHECK_THAT(whole_chart_error("|\n||\n"), Contains("a.changes: there are bar lines, but no chords between them"));
}

TEST_CASE("what is not text in UTF-8 is refused by name") {
  CHECK_THAT(whole_chart_error("\xFF\xFE|\0"), Contains("a.changes: this is UTF-16 text; save the changes as UTF-8"));
  CHECK_THAT(whole_chart_error("title: Caf\xE9\n| C |"),
             Catch::StartsWith("a.changes:1:11: this is not UTF-8 text; save the changes as plain text in UTF-8"));
  CHECK_THAT(whole_chart_error(std::string("| C |\0", 6)), Contains("a.changes: this is not a text file"));
}

TEST_CASE("a chart is refused beyond its limits, at once") {
  CHECK_THAT(whole_chart_error(std::string(1024 * 1024 + 1, ' ')),
             Contains("a.changes: the changes are larger than 1 MiB"));
  std::string many = "| C |";
  for (int bar = 0; bar < 10'000; ++bar) many += " % |";
  CHECK_THAT(whole_chart_error(many), Contains("this chart has more than 10000 bars"));
  std::string last_played_twice;
  for (int bar = 0; bar < 9'999; ++bar) last_played_twice += "| C ";
  CHECK_THAT(whole_chart_error(last_played_twice + "| F7 x3 |"), Contains("this chart has more than 10000 bars"));
  std::string words = "|";
  for (int word = 0; word < 97; ++word) words += " C";
  CHECK(chart_error(words) == "1:3: bar 1 has more than 96 signs");
  CHECK(chart_error("meter: 17/4\n| C C C C C C C C C C C C C C C C C |") == "2:3: bar 1 has more than 16 chords");
  CHECK(chart_error("| C" + std::string(300, '7') + " |") == "1:3: bar 1: this is too long for a chord");
}

TEST_CASE("a page of nonsense is refused at once, in a short message") {
  const auto sign = GENERATE(as<std::string>{}, "(", ":", "[", "#", "/", ".", "1", "1.", "1-99,", "|", "%", "x", "C ",
                             "form", "\xE2\x99\xAD");
  std::string text;
  while (text.size() + sign.size() <= 256 * 1024) text += sign;
  CHECK(whole_chart_error(text).size() < 400);
  CHECK(whole_chart_error("| C |" + text.substr(0, text.size() - 30) + "| H |").size() < 400);
}

TEST_CASE("a changes file that is not there is an error, not an empty chart") {
  CHECK_THROWS_AS(read_changes("/no such folder/a.changes"), ReadError);
  CHECK_THROWS_WITH(read_changes(INSIDELINE_TESTS), Contains("this is a folder"));
}
