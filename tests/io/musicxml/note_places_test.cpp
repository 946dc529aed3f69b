#include "io/musicxml/note_places.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::io::child_named;
using insideline::io::note_places;
using std::string;

TEST_CASE("notes and their children are found to the byte") {
  const string text =
      "<?xml version='1.0'?><!DOCTYPE score-partwise PUBLIC \"a>b\" \"c\">\n"
      "<score-partwise><!-- <note> --><part id='P>1'><measure number=\"1\"><direction><note/></direction>"
      "<note a=\"/>\" b='>'><pitch ><step>C</step></pitch><![CDATA[</note>]]><rest/></note><note/>"
      "</measure></part></score-partwise>";
  const auto notes = note_places(text);
  REQUIRE(notes.size() == 2);
  const auto& first = notes[0];
  CHECK(text.substr(first.note.begin, first.note.end - first.note.begin) ==
        "<note a=\"/>\" b='>'><pitch ><step>C</step></pitch><![CDATA[</note>]]><rest/></note>");
  CHECK(text.substr(first.note.begin, first.note.tag_end - first.note.begin) == "<note a=\"/>\" b='>'>");
  REQUIRE(first.children.size() == 2);
  const auto* const pitch = child_named(first, "pitch");
  REQUIRE(pitch != nullptr);
  CHECK(text.substr(pitch->begin, pitch->end - pitch->begin) == "<pitch ><step>C</step></pitch>");
  CHECK(child_named(first, "step") == nullptr);
  CHECK(text.substr(notes[1].note.begin, notes[1].note.end - notes[1].note.begin) == "<note/>");
}

TEST_CASE("only notes in the measures of a part count, whichever way round the score holds them") {
  CHECK(
      note_places("<score-timewise><measure><part><note/><note/></part><part><note/></part></measure></score-timewise>")
          .size() == 3);
  CHECK(note_places("<score-partwise><note/><part><note/><measure/></part></score-partwise>").empty());
  CHECK(note_places("no tags at all").empty());
}
