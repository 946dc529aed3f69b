// Source of the instruments' values: MusicXML 4.0, <transpose>: B flat trumpet, alto, tenor and baritone
// saxophone as they are usually written (common practice).
#include "tests/io/musicxml/score_shorthand.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

using insideline::Interval;
using insideline::io::parse_musicxml;
using insideline::tests::chords_of;
using insideline::tests::notes_of;
using insideline::tests::part_xml;
using insideline::tests::read_line;
using insideline::tests::refusal_of;
using insideline::tests::score_of_parts;
using insideline::tests::score_xml;
using insideline::tests::warning_lines;
using std::string;

namespace {

string transpose(const string& inside) { return "{<attributes><transpose>" + inside + "</transpose></attributes>} "; }
const string tenor = transpose("<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change>");

}  // namespace

TEST_CASE("a transposing part sounds where its instrument does") {
  const auto [inside, expected, interval] = GENERATE(table<string, string, Interval>({
      {"<diatonic>-1</diatonic><chromatic>-2</chromatic>", "Bb3@0:4", {-1, -2}},
      {"<chromatic>-2</chromatic>", "Bb3@0:4", {-1, -2}},
      {"<diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change>", "Bb2@0:4", {-8, -14}},
      {"<diatonic>-5</diatonic><chromatic>-9</chromatic>", "Eb3@0:4", {-5, -9}},
      {"<diatonic>-5</diatonic><chromatic>-9</chromatic><octave-change>-1</octave-change>", "Eb2@0:4", {-12, -21}},
      {"<diatonic>0</diatonic><chromatic>0</chromatic><octave-change>1</octave-change>", "C5@0:4", {7, 12}},
      {"<diatonic>-7</diatonic><chromatic>-12</chromatic>", "C3@0:4", {-7, -12}},
  }));
  const auto score = read_line(transpose(inside) + "C4:4");
  CHECK(notes_of(score) == expected);
  CHECK(score.solo.sounding_minus_written == interval);
  CHECK(to_string(score.solo.notes[0].written) == "C4");
}

TEST_CASE("chord symbols and keys of a transposing part move with its notes") {
  const auto score = read_line("{<attributes><key><fifths>2</fifths></key></attributes>} " + tenor +
                               "{<harmony><root><root-step>D</root-step></root><kind>dominant</kind></harmony>} D5:4");
  CHECK(notes_of(score) == "C4@0:4");
  CHECK(chords_of(score) == "C7@0:4");
  REQUIRE(score.solo.keys.size() == 1);
  CHECK(score.solo.keys[0].key.fifths == 0);
}

TEST_CASE("the mode of a key is kept, and moves with the part") {
  const auto key_named = [](const string& mode) {
    const auto score = read_line("{<attributes><key><fifths>2</fifths><mode>" + mode + "</mode></key></attributes>} " +
                                 tenor + "D5:4");
    return to_string(score.solo.keys[0].key);
  };
  CHECK(key_named("dorian") == "D dorian");
  CHECK(key_named("minor") == "A minor");
  CHECK(key_named("aeolian") == "A minor");
  CHECK(key_named("ionian") == "C");
  CHECK(key_named("none") == "C");
}

TEST_CASE("chord symbols of a piano part are concert pitch under a transposed solo") {
  const string xml = score_of_parts(
      part_xml(tenor + "D5:4", "P1") +
          part_xml("{<harmony><root><root-step>C</root-step></root><kind>dominant</kind></harmony>} r:4", "P2"),
      {"Tenor Sax", "Chords"});
  const auto score = parse_musicxml(xml, "duo.musicxml");
  CHECK(notes_of(score) == "C4@0:4");
  CHECK(chords_of(score) == "C7@0:4");
}

TEST_CASE("a player may change instruments in the middle of a piece") {
  const auto score = read_line("C4:4 | " + transpose("<chromatic>-9</chromatic>") + "C4:4 | " +
                               transpose("<chromatic>0</chromatic>") + "C4:4");
  CHECK(notes_of(score) == "C4@0:4 Eb3@4:4 C4@8:4");
}

TEST_CASE("a score in concert pitch is transposed by octaves only") {
  string xml = score_xml(tenor + "C4:4");
  xml.insert(xml.find("<part-list>"), "<defaults><concert-score/></defaults>");
  const auto score = parse_musicxml(xml, "concert.musicxml");
  CHECK(notes_of(score) == "C3@0:4");
  CHECK(warning_lines(score).find("1 transposition was not applied: the score says it is in concert pitch (bar 1)") !=
        string::npos);
}

TEST_CASE("8va lines and octave clefs change nothing, as pitches are already given as they sound") {
  // MusicXML 4.0, <octave-shift>: the notes are encoded at the pitch they have without the line.
  const auto [line, expected] = GENERATE(table<string, string>({
      {"{<direction><direction-type><octave-shift type=\"down\" size=\"8\"/></direction-type></direction>} C6:4",
       "C6@0:4"},
      {"{<attributes><clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef></"
       "attributes>} C4:4",
       "C4@0:4"},
  }));
  CHECK(notes_of(read_line(line)) == expected);
}

TEST_CASE("a transposition can be asked for where the file says none") {
  const auto score = read_line("D5:4", {.transpose = -14});
  CHECK(notes_of(score) == "C4@0:4");
  CHECK(score.solo.sounding_minus_written == Interval{-8, -14});
}

TEST_CASE("where the file says how the part sounds, the option does nothing and that is told") {
  const auto score = read_line(tenor + "D5:4", {.transpose = -2});
  CHECK(notes_of(score) == "C4@0:4");
  CHECK(warning_lines(score).find("the transposition asked for was not applied") != string::npos);
}

TEST_CASE("a transposition that is no number is refused") {
  CHECK(refusal_of(score_xml(transpose("<chromatic>Bb</chromatic>") + "C4:4"))
            .find("<chromatic> \"Bb\" is not a transposition") != string::npos);
}

TEST_CASE("a transposition for one staff moves the notes of that staff alone") {
  const auto on_staff = [](const string& step, int staff) {
    return fmt::format(
        "{{<note><pitch><step>{}</step><octave>4</octave></pitch><duration>12</duration><staff>{}</staff></note>}} ",
        step, staff);
  };
  const string first = "{<attributes><transpose number=\"1\"><chromatic>-2</chromatic></transpose></attributes>} ";
  const string second = "{<attributes><transpose number=\"2\"><chromatic>-12</chromatic></transpose></attributes>} ";
  const string notes = on_staff("C", 1) + on_staff("D", 2) + "C4:2";
  CHECK(notes_of(read_line(first + notes, {.voice = "1"})) == "Bb3@0:1 Bb3@2:2");
  CHECK(notes_of(read_line(first + notes, {.voice = "2"})) == "D4@1:1");
  CHECK(notes_of(read_line(second + notes, {.voice = "1"})) == "C4@0:1 C4@2:2");
  CHECK(notes_of(read_line(second + notes, {.voice = "2"})) == "D3@1:1");
  // One for all staves is in force until a staff gets its own, and again after it.
  const string all = transpose("<chromatic>-3</chromatic>");
  CHECK(notes_of(read_line(all + second + on_staff("C", 1) + on_staff("C", 2) + all + on_staff("C", 2),
                           {.voice = "2"})) == "C3@1:1 A3@2:1");
}
