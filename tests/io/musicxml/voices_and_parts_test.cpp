#include "tests/io/musicxml/score_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::io::parse_musicxml;
using insideline::io::ReadOptions;
using insideline::tests::chords_of;
using insideline::tests::notes_of;
using insideline::tests::part_xml;
using insideline::tests::read_line;
using insideline::tests::refusal_of;
using insideline::tests::score_of_parts;
using insideline::tests::score_xml;
using insideline::tests::warning_lines;
using std::string;

TEST_CASE("the solo is the voice with the single line") {
  const auto [line, expected] = GENERATE(table<string, string>({
      {"C5:2 D5:2 back:4 C3:4@2", "C5@0:2 D5@2:2"},
      {"C3:2@2 +E3:2@2 C3:2@2 +E3:2@2 back:4 G5:2@1 A5:2@1", "G5@0:2 A5@2:2"},
      {"C5:4 | D5:2 back:2 F4:2@2 r:2", "C5@0:4 D5@4:2"},
      {"C4:4 +E4:4 +G4:4", "G4@0:4"},         // a chord is its top note
      {"G4:4 +E4:4 +C4:4", "G4@0:4"},         // in whatever order
      {"C4:4 back:2 E4:2", "C4@0:2 E4@2:2"},  // a note that sounds on is cut
  }));
  CHECK(notes_of(read_line(line)) == expected);
}

TEST_CASE("a voice can be asked for by its name") {
  const string line = "C5:2 D5:2 back:4 C3:4@2";
  CHECK(notes_of(read_line(line, {.voice = "2"})) == "C3@0:4");
  CHECK(refusal_of(score_xml(line), {.voice = "7"}).find("the part \"Solo\" has no voice 7; it has 1, 2") !=
        string::npos);
}

TEST_CASE("what is left out of the line is counted") {
  const auto [line, expected] = GENERATE(table<string, string>({
      {"C4:2 +E4:2 D4:2 +F4:2", "2 chords in the solo: only their top notes were kept (bar 1)"},
      {"C5:2 D5:2 back:4 C3:4@2", "1 note of another voice was left out; --voice chooses"},
      {"C4:2 {<note><unpitched/><duration>24</duration></note>}", "1 note without pitch was left out (bar 1)"},
      {"C4:2 {<note><cue/><pitch><step>D</step><octave>4</octave></pitch><duration>24</duration></note>}",
       "1 cue note was left out (bar 1)"},
      {"C4:4 back:2 E4:2", "1 note sounds on into the next one and was cut there (bar 1)"},
      {"C4:2 {<note><pitch><step>D</step><alter>0.5</alter><octave>4</octave></pitch><duration>24</duration></note>}",
       "1 note between the semitones was rounded to the nearest (bar 1)"},
  }));
  CHECK(warning_lines(read_line(line)).find(expected) != string::npos);
}

namespace {

const string chords = "{<harmony><root><root-step>C</root-step></root><kind>major-seventh</kind></harmony>} ";
const string quartet =
    score_of_parts(part_xml(chords + "C3:4 +E3:4 +G3:4", "P1") + part_xml("G4:4", "P2") + part_xml("C2:4", "P3"),
                   {"Piano", "Tenor Sax", "Bass"});

}  // namespace

TEST_CASE("the first part with a single line is the solo, and says its name") {
  const auto score = parse_musicxml(quartet, "quartet.musicxml");
  CHECK(score.solo.part == "Tenor Sax");
  CHECK(notes_of(score) == "G4@0:4");
}

TEST_CASE("why a part was taken is known") {
  using insideline::io::PartTaken;
  const string piano = part_xml("C3:4 +E3:4 +G3:4", "P1");
  const string guitar = part_xml("C3:4 +E3:4 | D3:4 +F3:4 | E3:4", "P2");
  CHECK(parse_musicxml(quartet, "quartet.musicxml").part_taken == PartTaken::first_line);
  CHECK(parse_musicxml(score_of_parts(piano, {"Piano"}), "one.musicxml").part_taken == PartTaken::only_one);
  CHECK(parse_musicxml(score_of_parts(piano + guitar, {"Piano", "Guitar"}), "two.musicxml").part_taken ==
        PartTaken::nearest_line);
}

TEST_CASE("a part can be asked for by name, number or id") {
  const auto [wanted, expected] = GENERATE(table<string, string>(
      {{"Tenor Sax", "Tenor Sax"}, {"tenor sax", "Tenor Sax"}, {"3", "Bass"}, {"P3", "Bass"}, {"1", "Piano"}}));
  CHECK(parse_musicxml(quartet, "quartet.musicxml", {.part = wanted}).solo.part == expected);
}

TEST_CASE("a part that is not there is refused with the list of those that are") {
  const string message = refusal_of(quartet, {.part = "Trumpet"});
  CHECK(message ==
        "solo.musicxml: there is no part \"Trumpet\"; the score has 1 \"Piano\", 2 \"Tenor Sax\", 3 \"Bass\"");
}

TEST_CASE("chord symbols on another part are used where the solo has none") {
  CHECK(chords_of(parse_musicxml(quartet, "quartet.musicxml")) == "Cmaj7@0:4");
  const string unknown = "{<harmony><root><root-step>F</root-step></root><kind/></harmony>} C3:4 +E3:4 +G3:4";
  const auto odd = parse_musicxml(score_of_parts(part_xml("G4:4", "P1") + part_xml(unknown, "P2"), {"Sax", "Piano"}),
                                  "duo.musicxml");
  CHECK(chords_of(odd) == "N.C.@0:4");
  CHECK(warning_lines(odd).find("1 chord symbol cannot be read and counts as N.C. (bar 1)") != string::npos);
}

TEST_CASE("a line that goes on in another voice is one line, unless a voice is asked for") {
  const string halves = "C5:1 D5:1 E5:1@2 F5:1@2 | G5:1@2 A5:1@2 B5:2";
  const auto joined = read_line(halves);
  CHECK(notes_of(joined) == "C5@0:1 D5@1:1 E5@2:1 F5@3:1 G5@4:1 A5@5:1 B5@6:2");
  CHECK(warning_lines(joined).find("were joined to it; --voice chooses") != string::npos);
  CHECK(notes_of(read_line(halves, {.voice = "1"})) == "C5@0:1 D5@1:1 B5@6:2");
  const auto together = read_line("C5:1 D5:3 | G4:1@2 A4:3@2 back:4 B5:4 | E5:4");
  CHECK(notes_of(together) == "C5@0:1 D5@1:3 B5@4:4 E5@8:4");
}

TEST_CASE("a part with a few symbols leaves the changes to one that has many") {
  const string full = chords + "C3:4 | " + chords + "D3:4 | " + chords + "E3:4 | " + chords + "F3:4";
  const string few =
      "{<harmony><root><root-step>A</root-step></root><kind>minor</kind></harmony>} G4:4 | A4:4 | B4:4 | C5:4";
  const auto both = parse_musicxml(score_of_parts(part_xml(few, "P1") + part_xml(full, "P2"), {"Sax", "Piano"}), "x");
  CHECK(chords_of(both) == "Cmaj7@0:4 Cmaj7@4:4 Cmaj7@8:4 Cmaj7@12:4");
  CHECK(warning_lines(both).find("of the part \"Piano\" were taken, which has them in 4 bars; the solo's own part has "
                                 "them in 1") != string::npos);
  const string half = chords + "C3:4 | D3:4 | " + chords + "E3:4 | F3:4";
  const auto own = parse_musicxml(score_of_parts(part_xml(few, "P1") + part_xml(half, "P2"), {"Sax", "Piano"}), "x");
  CHECK(chords_of(own) == "Am@0:16");
}

TEST_CASE("of two parts with one name, which was taken is told") {
  const string two = score_of_parts(part_xml("C4:4", "P1") + part_xml("D4:4", "P2"), {"Sax", "Sax"});
  const auto taken = parse_musicxml(two, "two.musicxml", {.part = "sax"});
  CHECK(notes_of(taken) == "C4@0:4");
  CHECK(warning_lines(taken).find("2 parts are called \"Sax\"; number 1 was taken") != string::npos);
  CHECK(parse_musicxml(quartet, "quartet.musicxml", {.part = "Bass"}).warnings.empty());
}

TEST_CASE("slashes are beats to fill and no notes of the solo") {
  const string slash =
      "{<note><pitch><step>B</step><octave>4</octave></pitch><duration>12</duration><notehead>slash</notehead></"
      "note>} ";
  const auto score = read_line("C4:2 " + slash + slash + "| D4:4");
  CHECK(notes_of(score) == "C4@0:2 D4@4:4");
  CHECK(warning_lines(score).find("2 slashes were left out: they mark beats, not pitches (bar 1)") != string::npos);
}

TEST_CASE("a timewise score is read like a partwise one") {
  const string xml =
      "<score-timewise version=\"4.0\"><part-list><score-part "
      "id=\"P1\"><part-name>Solo</part-name></score-part></part-list>"
      "<measure number=\"1\"><part id=\"P1\"><attributes><divisions>1</divisions></attributes>"
      "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></part>"
      "<part "
      "id=\"P2\"><attributes><divisions>1</divisions></attributes><note><rest/><duration>4</duration></note></part></"
      "measure>"
      "<measure number=\"2\"><part "
      "id=\"P1\"><note><pitch><step>D</step><octave>4</octave></pitch><duration>4</duration></note>"
      "</part></measure></score-timewise>";
  const auto score = parse_musicxml(xml, "timewise.xml");
  CHECK(notes_of(score) == "C4@0:4 D4@4:4");
  CHECK(score.solo.notes[1].place.element == 2);  // the rest of the other part is element 1
}

TEST_CASE("an excerpt that keeps the numbers of its page is counted from 1, which is told") {
  const auto renumbered = [](string number) {
    string xml = score_xml("C4:4 | D4:4");
    return parse_musicxml(xml.replace(xml.find("number=\"1\""), 10, "number=\"" + number + "\""), "page.musicxml");
  };
  CHECK(warning_lines(renumbered("9")).find("the page calls the first bar 9; bars are counted from 1 here") !=
        string::npos);
  CHECK(renumbered("1").warnings.empty());
  CHECK(renumbered("X1").warnings.empty());
}

TEST_CASE("each note remembers where it stands on the page") {
  const auto score = read_line("r:1 C4:3 | D4:1 E4:3");
  REQUIRE(score.solo.notes.size() == 3);
  CHECK(score.solo.notes[0].place == insideline::WrittenPlace{"1", 1, 1});
  CHECK(score.solo.notes[2].place == insideline::WrittenPlace{"2", 1, 3});
}
