// What is no score is refused with one clear message that names the place and the way out.
#include "tests/io/musicxml/score_shorthand.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

using insideline::io::parse_musicxml;
using insideline::tests::notes_of;
using insideline::tests::refusal_of;
using insideline::tests::score_xml;
using std::string;

TEST_CASE("bytes that are no score are refused for what they are") {
  const auto [bytes, expected] = GENERATE(table<string, string>({
      {"C4 E4 G4",
       "solo.musicxml:1:1: this is not XML; export the score as MusicXML (.musicxml, .xml or .mxl)\n  C4 E4 G4\n  ^"},
      {"   ", "solo.musicxml:1:1: this is not XML"},
      {"MThd", "solo.musicxml: this is a MIDI file where a MusicXML score is expected"},
      {"<html><body/></html>",
       "solo.musicxml:1:2: this is XML but not MusicXML: <html> where <score-partwise> is expected"},
      {"<opus/>", "solo.musicxml:1:2: this is an opus, a list of scores"},
      {"<score-partwise>", "a closing tag does not match the tag it should close; the file is damaged or cut short"},
      {"<score-partwise><part></score-partwise>", "a closing tag does not match"},
      {"<score-partwise><part", "a tag is not well formed"},
      {"<?xml version=\"1.0\"?>", "there is no XML element"},
      {"<score-partwise/>", "the score has no part with a measure in it"},
      {"<score-partwise><part id=\"P1\"/></score-partwise>", "the score has no part with a measure in it"},
      {"<score-partwise/><score-partwise/>", "solo.musicxml:1:19: a second document begins here"},
      {"<score-partwise/> and more", "there is text after the end of the score; remove it"},
      {"<!DOCTYPE score-partwise [<!ENTITY a \"b\">]><score-partwise/>", "the DOCTYPE declares entities of its own"},
      {"<?xml version=\"1.0\" encoding=\"windows-1252\"?><score-partwise/>",
       "the encoding \"windows-1252\" is not read; export the score again as UTF-8"},
      {"<?xml version=\"1.0\"?><a>\xE9</a>", "the byte E9 here is not UTF-8, which the file claims to be"},
      {string("<\0a", 3), "the UTF-16 text breaks off inside a character here"},
      {"PK\x03\x04 and nothing more", "the compressed score is damaged"},
  }));
  const string message = refusal_of(bytes);
  CAPTURE(message);
  CHECK(message.find(expected) != string::npos);
}

TEST_CASE("a score without a note is refused") {
  const auto [line, expected] = GENERATE(table<string, string>({
      {"r:4", "there is no note with a pitch in this score; is it the right file?"},
      {"{<note><unpitched/><duration>24</duration></note>}", "there is no note with a pitch"},
  }));
  CHECK(refusal_of(score_xml(line)).find(expected) != string::npos);
  CHECK(refusal_of(score_xml(line), {.part = "1"}).find("there is no note with a pitch in the part \"Solo\"") !=
        string::npos);
}

TEST_CASE("entities that grow without end are never expanded") {
  string bomb = "<!DOCTYPE score-partwise [<!ENTITY a0 \"ha\">";
  for (int i = 1; i < 30; ++i) bomb += fmt::format("<!ENTITY a{} \"&a{};&a{};\">", i, i - 1, i - 1);
  CHECK(
      refusal_of(bomb + "]><score-partwise>&a29;</score-partwise>").find("the DOCTYPE declares entities of its own") !=
      string::npos);
}

TEST_CASE("100,000 nested elements do not run out of stack, wherever they stand") {
  string deep;
  for (int i = 0; i < 100'000; ++i) deep += "<a>";
  for (int i = 0; i < 100'000; ++i) deep += "</a>";
  CHECK(refusal_of("<score-partwise>" + deep + "</score-partwise>").find("the score has no part with a measure") !=
        string::npos);
  CHECK(refusal_of(deep).find("this is XML but not MusicXML: <a>") != string::npos);
  const string score = score_xml("{" + deep + "} C4:1 {<note>" + deep + "<rest/><duration>12</duration></note>} D4:2");
  CHECK(notes_of(parse_musicxml(score, "solo.musicxml")) == "C4@0:1 D4@2:2");
}

TEST_CASE("a score of more tags than any has is refused") {
  string wide = "<score-partwise>";
  for (int i = 0; i < 4'000'001; ++i) wide += "<a/>";
  CHECK(refusal_of(wide + "</score-partwise>").find("the score has more than 4000000 XML tags") != string::npos);
}

TEST_CASE("a score cut off anywhere is refused, never half read") {
  const string whole = score_xml("C4:4 | D4:4");
  for (std::size_t length = 1; length + 1 < whole.size(); length += 7) {
    const string message = refusal_of(whole.substr(0, length));
    CAPTURE(length);
    CHECK(message.starts_with("solo.musicxml:1:"));
  }
}

TEST_CASE("a DTD is named but never fetched") {
  const string doctype =
      "<?xml version=\"1.0\"?><!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" "
      "\"file:///nowhere.dtd\">";
  CHECK(notes_of(parse_musicxml(doctype + score_xml("C4:4"), "solo.musicxml")) == "C4@0:4");
}
