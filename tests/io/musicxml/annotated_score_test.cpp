#include "io/musicxml/annotated_score.hpp"

#include "io/musicxml/container_writer.hpp"
#include "io/read_result.hpp"
#include "tests/io/musicxml/score_shorthand.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <string>
#include <tuple>
#include <vector>

using Catch::Matchers::Contains;
using insideline::io::annotated_score;
using insideline::io::NoteInk;
using insideline::io::parse_musicxml;
using insideline::io::ScoreInk;
using insideline::tests::notes_of;
using insideline::tests::score_of_parts;
using insideline::tests::score_xml;
using std::string;
using std::tuple;

namespace {

string annotated(const string& bytes, const ScoreInk& ink) { return annotated_score(bytes, "solo.musicxml", ink); }

/// The document without what the writer adds, each with the white space before it.
string without_ink(const string& annotated) {
  static const std::regex added(
      "\\s*<lyric number=\"\\d+\" name=\"degrees\"><syllabic>single</syllabic><text>[^<]*</text></lyric>"
      "|\\s*<notehead color=\"#[0-9A-F]{6}\">normal</notehead>"
      "|\\s*<direction placement=\"above\">(<direction-type><words>[^<]*</words></direction-type>)?"
      "(<direction-type><bracket type=\"[a-z]+\" number=\"\\d\" line-end=\"down\"( line-type=\"solid\")?/>"
      "</direction-type>)?(<staff>\\d</staff>)?</direction>");
  return std::regex_replace(annotated, added, "");
}

string utf16(const string& ascii, bool little) {
  string bytes = little ? "\xFF\xFE" : "\xFE\xFF";
  for (const char c : ascii) bytes += little ? string{c, '\0'} : string{'\0', c};
  return bytes;
}

string with_crlf(string text) {
  for (std::size_t at = text.find("><"); at != string::npos; at = text.find("><", at + 3))
    text.insert(at + 1, "\r\n\t");
  return text;
}

const ScoreInk two_labels{{{0, "b7", "#0072B2"}, {1, "(9)\xC2\xBB", "#CC79A7"}}, {{{0, 1}, "up 5-b7"}}};

}  // namespace

TEST_CASE("labels go where the order of a note's elements wants them") {
  const auto [note, expected] = GENERATE(table<string, string>({
      {"<pitch><step>C</step><octave>4</octave></pitch><duration>12</duration>",
       "</duration><notehead color=\"#0072B2\">normal</notehead><lyric number=\"1\" name=\"degrees\">"
       "<syllabic>single</syllabic><text>5</text></lyric></note>"},
      {"<pitch><step>C</step><octave>4</octave></pitch><duration>12</duration><stem>up</stem><staff>1</staff>"
       "<beam number=\"1\">begin</beam><notations/><play/>",
       "<stem>up</stem><notehead color=\"#0072B2\">normal</notehead><staff>1</staff><beam number=\"1\">begin</beam>"
       "<notations/><lyric number=\"1\" name=\"degrees\"><syllabic>single</syllabic><text>5</text></lyric><play/>"},
      // A head that has a form keeps it; one that has a colour keeps that too.
      {"<pitch><step>C</step><octave>4</octave></pitch><duration>12</duration><notehead>x</notehead>",
       "<notehead color=\"#0072B2\">x</notehead><lyric number=\"1\""},
      {"<pitch><step>C</step><octave>4</octave></pitch><duration>12</duration><notehead color='#FF0000'>x</notehead>",
       "<notehead color='#FF0000'>x</notehead><lyric number=\"1\""},
      // Below the words of the song.
      {"<pitch><step>C</step><octave>4</octave></pitch><duration>12</duration><lyric "
       "number=\"2\"><text>la</text></lyric>",
       "</duration><notehead color=\"#0072B2\">normal</notehead><lyric number=\"2\"><text>la</text></lyric>"
       "<lyric number=\"3\" name=\"degrees\">"},
      {"<grace/><pitch><step>C</step><octave>4</octave></pitch><!-- </note> --><voice>1</voice>",
       "<!-- </note> --><voice>1</voice><notehead color=\"#0072B2\">normal</notehead><lyric number=\"1\""},
  }));
  const string score = score_xml("{<note>" + note + "</note>} C4:1");
  CHECK_THAT(annotated(score, {{{0, "5", "#0072B2"}}, {}}), Contains(expected));
}

TEST_CASE("without what was added an annotated score is the score again, byte for byte") {
  const string plain =
      score_xml("C4:1 +E4:1 G4:1 {<!-- a remark with <note> in it -->} r:1 Bb4:1 | D5:0 C5:4~ | ~C5:4");
  const std::vector<string> documents = {
      plain, with_crlf(plain),
      "\xEF\xBB\xBF<?xml version=\"1.0\"?>\n<!DOCTYPE score-partwise>\n<!-- top -->" + plain + "\n",
      "<?xml version='1.0' encoding='ISO-8859-1'?>" + std::regex_replace(plain, std::regex("Solo"), "Caf\xE9")};
  const string& document = documents[static_cast<std::size_t>(GENERATE(range(0, 4)))];
  ScoreInk ink;
  for (const auto& note : parse_musicxml(document, "solo.musicxml").solo.notes) {
    ink.notes.push_back({note.place.element, "b9\xC2\xBB & <", "#D55E00"});
    ink.brackets.push_back({{0, note.place.element}, "both ways"});
  }
  const string written = annotated(document, ink);
  CHECK(written.size() > document.size() + 400);
  CHECK(without_ink(written) == document);
  CHECK(notes_of(parse_musicxml(written, "again.musicxml")) == notes_of(parse_musicxml(document, "solo.musicxml")));
}

TEST_CASE("an annotated score keeps its encoding") {
  const string plain = score_xml("C4:1 E4:1 G4:2");
  const string expected = annotated(plain, two_labels);
  CHECK_THAT(expected, Contains("<text>(9)&#187;</text>"));
  CHECK(annotated(utf16(plain, true), two_labels) == utf16(expected, true));
  CHECK(annotated(utf16(plain, false), two_labels) == utf16(expected, false));
  const string latin1 =
      "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>" + std::regex_replace(plain, std::regex("Solo"), "\xC9t\xE9");
  const string written = annotated(latin1, two_labels);
  CHECK_THAT(written, Contains("<part-name>\xC9t\xE9</part-name>") && Contains("<text>(9)&#187;</text>"));
  CHECK(parse_musicxml(written, "again.musicxml").solo.part == "\xC3\x89t\xC3\xA9");
}

TEST_CASE("characters beyond the basic plane before a note do not shift its labels") {
  const string plain = "<?xml version=\"1.0\"?><!-- \xF0\x9D\x84\x9E \xE2\x99\xAD -->" + score_xml("C4:1 E4:3");
  const string written = annotated(plain, two_labels);
  CHECK(without_ink(written) == plain);
  string little = "\xFF\xFE";
  for (const char16_t unit : u"<!-- \U0001D11E \u266D -->") {
    if (unit == 0) break;
    little += {static_cast<char>(unit & 0xFFU), static_cast<char>(unit >> 8U)};
  }
  CHECK(annotated(little + utf16(score_xml("C4:1 E4:3"), true).substr(2), two_labels) ==
        little + utf16(annotated(score_xml("C4:1 E4:3"), two_labels), true).substr(2));
}

TEST_CASE("a note that repeats bring back shows what differs from pass to pass") {
  const auto [labels, colours, expected] = GENERATE(table<std::vector<string>, std::vector<string>, string>({
      {{"3", "3"},
       {"#0072B2", "#0072B2"},
       "<notehead color=\"#0072B2\">normal</notehead><lyric number=\"1\" "
       "name=\"degrees\"><syllabic>single</syllabic><text>3</text>"},
      {{"3", "(b9)"},
       {"#0072B2", "#CC79A7"},
       "<voice>1</voice><lyric number=\"1\" name=\"degrees\"><syllabic>single</syllabic><text>3 / (b9)</text>"},
      {{"3", "3", "5"}, {"#0072B2", "#0072B2", "#0072B2"}, "<text>3 / 3 / 5</text>"},
      {{"", ""}, {"", ""}, "<voice>1</voice></note>"},
  }));
  ScoreInk ink;
  for (std::size_t pass = 0; pass < labels.size(); ++pass) ink.notes.push_back({0, labels[pass], colours[pass]});
  CHECK_THAT(annotated(score_xml("C4:4"), ink), Contains(expected));
}

TEST_CASE("the notes of every part and of both forms of a score are found by their number") {
  const string part = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note>";
  const string attributes = "<attributes><divisions>1</divisions></attributes>";
  const string timewise =
      "<score-timewise><part-list><score-part id=\"P1\"><part-name>A</part-name></score-part>"
      "<score-part id=\"P2\"><part-name>B</part-name></score-part></part-list>"
      "<measure number=\"1\"><part id=\"P1\">" +
      attributes + part + part + "</part><part id=\"P2\">" + attributes + part +
      "</part></measure><measure number=\"2\"><part id=\"P1\">" + part + "</part><part id=\"P2\">" + part +
      "</part></measure></score-timewise>";
  insideline::io::ReadOptions second;
  second.part = "B";
  ScoreInk ink;
  for (const auto& note : parse_musicxml(timewise, "solo.musicxml", second).solo.notes)
    ink.notes.push_back({note.place.element, "5", ""});
  REQUIRE(ink.notes.size() == 2);
  const string written = annotated(timewise, ink);
  CHECK(without_ink(written) == timewise);
  const string labelled =
      "<lyric number=\"1\" name=\"degrees\"><syllabic>single</syllabic><text>5</text></lyric></note></part>";
  CHECK_THAT(written, Contains("<part id=\"P2\">" + attributes + part.substr(0, part.size() - 7) + labelled));
  CHECK_THAT(written, Contains("<part id=\"P2\">" + part.substr(0, part.size() - 7) + labelled));
  CHECK(notes_of(parse_musicxml(written, "again.musicxml", second)) == "C4@0:1 C4@1:1");
}

TEST_CASE("a compressed score is annotated inside, and can be packed again with all that was in it") {
  const string plain = score_xml("C4:1 E4:3");
  const string packed = insideline::io::packed_score(plain, "", "solo.mxl");
  const string written = annotated_score(packed, "solo.mxl", two_labels);
  CHECK(written == annotated(plain, two_labels));
  const string again = insideline::io::packed_score(written, packed, "solo.mxl");
  CHECK(annotated_score(again, "again.mxl", {}) == written);
}

TEST_CASE("labels of another score and bytes that are no score are refused") {
  CHECK_THROWS_WITH(annotated(score_xml("C4:4"), {{{1, "5", ""}}, {}}),
                    Contains("the labels belong to another score than this one"));
  CHECK_THROWS_WITH(annotated(score_xml("C4:4"), {{}, {{{0, 7}, "up"}}}),
                    Contains("the labels belong to another score than this one"));
  CHECK_THROWS_WITH(annotated("MThd and so on", {}), Contains("this is not XML"));
  CHECK_THROWS_AS(annotated("<score-partwise><part></score-partwise>", {}), insideline::io::ReadError);
}
