#include "io/musicxml/road_map.hpp"
#include "tests/io/musicxml/score_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::io::playing_order;
using insideline::io::RoadMap;
using insideline::io::RoadSigns;
using insideline::tests::bars_of;
using insideline::tests::notes_of;
using insideline::tests::read_line;
using insideline::tests::refusal_of;
using insideline::tests::score_xml;
using insideline::tests::warning_lines;
using insideline::tests::written_bars_of;
using std::string;

namespace {

/// A bar with a note, and road signs in shorthand: "|:" ":|" ":|x3" "[1" "]" "DC" "DS" "Fine" "Coda" "ToCoda" "Segno".
string signed_bar_xml(const string& sign) {
  static const std::vector<std::pair<string, string>> meanings = {
      {"|:", "<barline><repeat direction=\"forward\"/></barline>"},
      {":|", "<barline><repeat direction=\"backward\"/></barline>"},
      {":|x3", "<barline><repeat direction=\"backward\" times=\"3\"/></barline>"},
      {":|after", "<barline><repeat direction=\"backward\" after-jump=\"yes\"/></barline>"},
      {"[1", "<barline><ending number=\"1\" type=\"start\"/></barline>"},
      {"[2", "<barline><ending number=\"2\" type=\"start\"/></barline>"},
      {"[3", "<barline><ending number=\"3\" type=\"start\"/></barline>"},
      {"[1,2", "<barline><ending number=\"1, 2\" type=\"start\"/></barline>"},
      {"[1-3", "<barline><ending number=\"1-3\" type=\"start\"/></barline>"},
      {"[4", "<barline><ending number=\"4\" type=\"start\"/></barline>"},
      {"]", "<barline><ending number=\"1\" type=\"stop\"/></barline>"},
      {"]open", "<barline><ending number=\"2\" type=\"discontinue\"/></barline>"},
      {"DC", "<direction><direction-type><words>D.C.</words></direction-type><sound dacapo=\"yes\"/></direction>"},
      {"DC2", "<sound dacapo=\"yes\" time-only=\"2\"/>"},
      {"DS", "<sound dalsegno=\"s\"/>"},
      {"Segno", "<sound segno=\"s\"/>"},
      {"ToCoda", "<sound tocoda=\"c\"/>"},
      {"Coda", "<sound coda=\"c\"/>"},
      {"Fine", "<sound fine=\"yes\"/>"},
      {"words:DC", "<direction><direction-type><words>D.C. al Fine</words></direction-type></direction>"},
      {"words:DS", "<direction><direction-type><words>D.S. al Coda</words></direction-type></direction>"},
      {"words:DC2nd", "<direction><direction-type><words>D.C. al 2nd ending</words></direction-type></direction>"},
      {"DC2nd",
       "<direction><direction-type><words>D.C. al 2nd ending</words></direction-type><sound "
       "dacapo=\"yes\"/></direction>"},
      {"words:DS2nd", "<direction><direction-type><words>D.S. al second end.</words></direction-type></direction>"},
      {"words:ToCoda", "<direction><direction-type><words>To Coda</words></direction-type></direction>"},
      {"words:Coda", "<direction><direction-type><words>CODA</words></direction-type></direction>"},
      {"mark:Coda", "<direction><direction-type><rehearsal>Coda</rehearsal></direction-type></direction>"},
      {"words:Fine", "<direction><direction-type><words>Fine</words></direction-type></direction>"},
      {"sign:segno", "<direction><direction-type><segno/></direction-type></direction>"},
      {"sign:coda", "<direction><direction-type><coda/></direction-type></direction>"},
  };
  for (const auto& [name, xml] : meanings)
    if (name == sign) return '{' + xml + "} ";
  FAIL("no such sign: " + sign);
  return {};
}

/// "|: . / :| / ." : bars between "/", each with its signs, "." for a plain bar.
string line_of(const string& map) {
  string line;
  string word;
  bool signs_before_note = true;
  const auto flush = [&] {
    if (word == "/") line += signs_before_note ? "C4:4 | " : "| ";
    if (word == "/") signs_before_note = true;
    if (!word.empty() && word != "/" && word != ".") line += signed_bar_xml(word);
    word.clear();
  };
  for (const char c : map + ' ') {
    if (c == ' ')
      flush();
    else
      word += c;
  }
  return line + "C4:4";
}

string played(const string& map, RoadMap road_map = RoadMap::played) {
  return written_bars_of(read_line(line_of(map), {.road_map = road_map}));
}

}  // namespace

TEST_CASE("repeats, endings and jumps are played out") {
  const auto [map, expected] = GENERATE(table<string, string>({
      {". / . / .", "1 2 3"},
      {". / :| / .", "1 2 1 2 3"},
      {". / |: / :| / .", "1 2 3 2 3 4"},
      {"|: / :|x3 / .", "1 2 1 2 1 2 3"},
      {"|: :| / .", "1 1 2"},
      {"|: / :| / |: / :|", "1 2 1 2 3 4 3 4"},
      {". / :| / . / :|", "1 2 1 2 3 4 3 4"},  // no sign where it starts again
      {"|: / [1 ] :| / [2 ] / .", "1 2 1 3 4"},
      {"|: / [1 :| / [2 ]open / .", "1 2 1 3 4"},
      {"|: / [1,2 ] :| / [3 ] / .", "1 2 1 2 1 3 4"},
      {"|: / [1-3 ] :| / [4 ]", "1 2 1 2 1 2 1 3"},
      {"|: / [1 ] :| / [2 ] :| / [3 ] / .", "1 2 1 3 1 4 5"},
      {"|: / [1 ] :| / .", "1 2 1 3"},  // an ending without a second
      {". / DC / .", "1 2 1 2 3"},
      {". / Fine / . / DC", "1 2 3 4 1 2"},
      {". / Segno / Fine / DS", "1 2 3 4 2 3"},
      {". / ToCoda / DC / Coda / .", "1 2 3 1 2 4 5"},
      {". / Segno / ToCoda / DS / Coda", "1 2 3 4 2 3 5"},
      {"|: / :| / Fine / DC", "1 2 1 2 3 4 1 2 3"},             // no repeats after a jump
      {"|: / :|after / Fine / DC", "1 2 1 2 3 4 1 2 1 2 3"},    // unless they say so
      {"|: / [1 ] :| / [2 ] Fine / DC", "1 2 1 3 4 1 3"},       // and the last ending
      {". / ToCoda / DC / Coda |: / :|", "1 2 3 1 2 4 5 4 5"},  // but again in the coda
      {"|: / DC2 :| / .", "1 2 1 2 1 2 3"},                     // a jump for the second pass
      {". / Fine / .", "1 2 3"},                                // no jump: nothing to end early
      {". / words:Fine / . / words:DC", "1 2 3 4 1 2"},
      {". / sign:segno / sign:coda / words:DS / sign:coda", "1 2 3 4 2 3 5"},
      {". / [2 ] / .", "1 2 3"},  // a second ending without a first
      {". / DS / .", "1 2 3"},    // a jump to a sign that is not there
  }));
  CAPTURE(map);
  CHECK(played(map) == expected);
}

TEST_CASE("a first ending lasts until the bar that turns back, though its bracket stops before") {
  const auto [map, expected] = GENERATE(table<string, string>({
      {"|: / [1 ] / :| / [2 ] / .", "1 2 3 1 4 5"},
      {"|: / [1 ] / . / :| / [2 ] / .", "1 2 3 4 1 5 6"},
      {"|: / [1 ] / :| / .", "1 2 3 1 4"},                              // no second one
      {"|: / [1 ] / :| / [2 ] / :| / [3 ] / .", "1 2 3 1 4 5 1 6 7"},   // and a second one before a third
      {"|: / [1 ] / |: / :| / .", "1 2 3 4 3 4 5"},                     // but not into the next repeat
      {"|: / [1 ] :| / [2 ] / . / :| / .", "1 2 1 3 4 5 4 5 6"},        // nor does the last one
      {"|: / [1 ] :| / [2 ] / . / [1 ] :| / [2 ]", "1 2 1 3 4 5 4 6"},  // before other endings
      {"|: / [1 ] / :| / [2 ] Fine / DC", "1 2 3 1 4 5 1 4"},
  }));
  CAPTURE(map);
  CHECK(played(map) == expected);
  CHECK(read_line(line_of(map)).warnings.empty());
}

TEST_CASE("endings whose numbers cannot be meant are played by their places, and told") {
  const auto [map, expected] = GENERATE(table<string, string>({
      {"|: / [1 ] :| / [1 ] / .", "1 2 1 3 4"},
      {"|: / [1 ] :| / [1 ] :| / [2 ] / .", "1 2 1 3 1 4 5"},
      {"|: / [2 ] :| / [3 ] / .", "1 2 1 3 4"},
      {"|: / [2 ] :| / .", "1 2 1 3"},
  }));
  CAPTURE(map);
  const auto score = read_line(line_of(map));
  CHECK(written_bars_of(score) == expected);
  const string warning = warning_lines(score);
  CAPTURE(warning);
  CHECK((warning.find("1 ending has a number that cannot be meant; its place told when to play it (bar ") !=
             string::npos ||
         warning.find("2 endings have numbers that cannot be meant; their places told when to play them (bars ") !=
             string::npos));
}

TEST_CASE("endings are played by their numbers in whatever order they stand") {
  const auto [map, expected] = GENERATE(table<string, string>({
      {"|: / [2 ] / [1 ] :| / .", "1 3 1 2 4"},
      {"|: / [2 ] :| / [1 ] :| / . / :|", "1 3 1 2 4 5 4 5"},
      {"|: / [1 ] / [1 ] :| / [2 ] / .", "1 2 3 1 4 5"},  // one ending under two brackets
      {"|: / [1 ] :| / . / :|", "1 2 1 3 4 3 4"},         // what follows an ending left out is played anew
  }));
  CAPTURE(map);
  CHECK(played(map) == expected);
  CHECK(read_line(line_of(map)).warnings.empty());
}

TEST_CASE("an ending may begin a repeat itself") {
  const auto [map, expected] = GENERATE(table<string, string>({
      {"|: / [1 ] :| / [2 |: ] :| / .", "1 2 1 3 3 4"},
      {"|: / [1 ] :| / [2 |: ] / . / :| / .", "1 2 1 3 4 5 3 4 5 6"},
      {"|: / [1 ] :| / [2 |: ] :|x3 / .", "1 2 1 3 3 3 4"},
      {"|: / [1 ] :| / [2 |: ] / [1 ] :| / [2 ] / .", "1 2 1 3 4 3 5 6"},
      {"|: [1 ] :| / [2 ] / .", "1 2 3"},  // nothing before the endings
  }));
  CAPTURE(map);
  CHECK(played(map) == expected);
}

TEST_CASE("a D.C. al 2nd ending ends there") {
  CHECK(played("|: / [1 ] :| / [2 ] / . / words:DC2nd / .") == "1 2 1 3 4 5 1 3");
  CHECK(played("|: / [1 ] :| / [2 ] / . / DC2nd / .") == "1 2 1 3 4 5 1 3");
  CHECK(played(". / sign:segno |: / [1 ] :| / [2 ] / . / words:DS2nd") == "1 2 3 2 4 5 6 2 4");
  CHECK(played("|: / [1,2 ] :| / [3 ] / words:DC2nd / .") == "1 2 1 2 1 3 4 1 2");
}

TEST_CASE("a coda may be marked by its word") {
  CHECK(played(". / words:ToCoda / words:DC / words:Coda / .") == "1 2 3 1 2 4 5");
  CHECK(played(". / sign:coda / words:DC / words:Coda / .") == "1 2 3 1 2 4 5");
  CHECK(played(". / words:Coda / words:DC / words:Coda / .") == "1 2 3 1 2 4 5");
  CHECK(played(". / words:ToCoda / DC / mark:Coda / .") == "1 2 3 1 2 4 5");
}

TEST_CASE("coda signs that no jump leads to are told") {
  const string told =
      "2 bars have coda signs, but no D.C. or D.S. leads there: they were played straight on (bars 2, 4)";
  for (const char* const map : {". / ToCoda / . / Coda / .", ". / sign:coda / . / sign:coda / ."}) {
    CHECK(played(map) == "1 2 3 4 5");
    CHECK(warning_lines(read_line(line_of(map))).find(told) != string::npos);
  }
  CHECK(read_line(line_of(". / ToCoda / DC / Coda / .")).warnings.empty());
  CHECK(read_line(line_of("|: / ToCoda / :| / Coda / .")).warnings.empty());  // the second time through
}

TEST_CASE("as written, the page is read once") {
  CHECK(played("|: / [1 ] :| / [2 ] / DC", RoadMap::as_written) == "1 2 3 4");
}

TEST_CASE("what is odd in the road map is told") {
  CHECK(warning_lines(read_line(line_of(". / DS / ."))).find("1 jump has no sign to go to and was not taken (bar 2)") !=
        string::npos);
  CHECK(warning_lines(read_line(line_of(". / words:Fine / words:DC")))
            .find("2 jumps or signs were read from their words") != string::npos);
}

TEST_CASE("bars that the road map never reaches are told") {
  const auto score = read_line(line_of("|: / [1 ] :| / [3 ] / ."));
  CHECK(written_bars_of(score) == "1 2 1 4");
  CHECK(warning_lines(score).find(
            "1 bar is never played by the repeats and jumps; --as-written reads the page once (bar 3)") !=
        string::npos);
}

TEST_CASE("a road map without an end is refused, and the way out is named") {
  const string message = refusal_of(score_xml(line_of("Coda / DC ToCoda / .")));
  CHECK(message.find("the repeats and jumps play more than 20000 bars; --as-written reads the page once") !=
        string::npos);
}

TEST_CASE("a repeat that is played absurdly often is refused") {
  const string message =
      refusal_of(score_xml("C4:4 {<barline><repeat direction=\"backward\" times=\"5000\"/></barline>}"));
  CHECK(message.find("a repeat cannot be played \"5000\" times") != string::npos);
}

TEST_CASE("the same solo twice is two choruses of bars, with the pickup completing the last bar") {
  const auto score = read_line("C4:1 | D4:4 | E4:3 {<barline><repeat direction=\"backward\"/></barline>}");
  CHECK(bars_of(score) == "0@-1:1 1@0:4 2@4:4 3@8:4 4@12:3");
  CHECK(notes_of(score) == "C4@-1:1 D4@0:4 E4@4:3 C4@7:1 D4@8:4 E4@12:3");
  CHECK(score.warnings.empty());
}

TEST_CASE("a tie into a first ending and into a second one both sound on") {
  const auto score = read_line(
      "C4:4 | D4:4~ | {<barline><ending number=\"1\" type=\"start\"/></barline>} ~D4:4 "
      "{<barline><ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\"/></barline>} | "
      "{<barline><ending number=\"2\" type=\"start\"/></barline>} ~D4:2 r:2 "
      "{<barline><ending number=\"2\" type=\"stop\"/></barline>}");
  CHECK(notes_of(score) == "C4@0:4 D4@4:8 C4@12:4 D4@16:6");
}

TEST_CASE("notes for certain times through a repeat are played in those alone") {
  const auto only = [](const string& step, const string& times) {
    return "{<note time-only=\"" + times + "\"><pitch><step>" + step +
           "</step><octave>4</octave></pitch><duration>24</duration></note>} ";
  };
  const string repeat = "{<barline><repeat direction=\"backward\" times=\"3\"/></barline>}";
  const auto score = read_line(only("C", "1,3") + "back:2 " + only("D", "2") + "E4:2 " + repeat);
  CHECK(notes_of(score) == "C4@0:2 E4@2:2 D4@4:2 E4@6:2 C4@8:2 E4@10:2");
  CHECK(score.warnings.empty());
  // Read as written the page is played once.
  const auto page = read_line(only("C", "1,3") + "back:2 " + only("D", "2") + "E4:2 " + repeat,
                              {.road_map = insideline::io::RoadMap::as_written});
  CHECK(notes_of(page) == "C4@0:2 E4@2:2");
}

TEST_CASE("a jump inside a bar is taken at its end, and told") {
  const string jump = "{<direction><sound dacapo=\"yes\"/></direction>} ";
  CHECK(warning_lines(read_line("C4:4 | D4:2 " + jump + "E4:2"))
            .find("1 jump stands inside its bar and was taken at the end of it (bar 2)") != string::npos);
  CHECK(notes_of(read_line("C4:4 | D4:2 " + jump + "E4:2")) == notes_of(read_line("C4:4 | D4:2 E4:2 " + jump)));
  CHECK(read_line("C4:4 | D4:2 E4:2 " + jump).warnings.empty());
}
