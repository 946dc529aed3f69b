#include "io/musicxml/chord_symbols.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/io/musicxml/score_shorthand.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::Beats;
using insideline::io::annotated_score;
using insideline::io::ChordInk;
using insideline::io::parse_musicxml;
using insideline::io::ScoreInk;
using insideline::tests::chords_of;
using insideline::tests::score_xml;
using std::string;

namespace {

insideline::MusicxmlChord chord(const string& symbol) {
  return musicxml_from_chord(insideline::parse_chord_symbol(symbol).value().value());
}

insideline::MusicxmlChord no_chord() {
  insideline::MusicxmlChord none;
  none.kind = "none";
  none.text = "N.C.";
  return none;
}

/// The score with the chords; its notes are labelled with nothing.
string with_chords(const string& score, std::vector<ChordInk> chords) {
  const auto read = parse_musicxml(score, "solo.musicxml");
  ScoreInk ink;
  for (const auto& note : read.solo.notes)
    ink.notes.push_back({note.place.element, "", "", note.onset, note.place.position});
  for (const auto& bar : read.solo.bars) ink.bars.push_back(bar.onset);
  ink.chords = std::move(chords);
  return annotated_score(score, "solo.musicxml", ink);
}

string chords_in(const string& score, std::vector<ChordInk> chords) {
  return chords_of(parse_musicxml(with_chords(score, std::move(chords)), "again.musicxml"));
}

}  // namespace

TEST_CASE("the chords of a changes file stand in the score where they sound") {
  const auto [line, chords, expected] = GENERATE(table<string, std::vector<ChordInk>, string>({
      // over a note, inside one, over a rest, and in a bar of rests between two with notes
      {"C4:1 E4:3 | r:4 | r:2 G4:2",
       {{Beats(0), chord("C6")},
        {Beats(3), chord("A7(b9)")},
        {Beats(4), chord("Dm7")},
        {Beats(13, 2), chord("G7")},
        {Beats(8), chord("C/E")}},
       "C6@0:3 A7b9@3:1 Dm7@4:5/2 G7@13/2:3/2 C/E@8:4"},
      // a pickup, and grace notes before the first note of a bar
      {"{<attributes><time><beats>4</beats><beat-type>4</beat-type></time></attributes>} G4:4 | F4:0 E4:2 C4:2",
       {{Beats(0), chord("G7")}, {Beats(4), chord("Cmaj7")}},
       "G7@0:4 Cmaj7@4:4"},
      // chords that stop
      {"C4:4 | C4:4", {{Beats(0), chord("C")}, {Beats(4), no_chord()}}, "C@0:4 N.C.@4:4"},
  }));
  CHECK(chords_in(score_xml(line), chords) == expected);
}

TEST_CASE("a chord symbol stands before what sounds with it, and nothing else moves") {
  const string score = score_xml("C4:1 E4:3");
  const string written = with_chords(score, {{Beats(0), chord("C7(b9)")}, {Beats(2), chord("F/A")}});
  const string first = "<harmony><root><root-step>C</root-step></root><kind";
  CHECK_THAT(written,
             Contains(first) && Contains("<bass><bass-step>A</bass-step></bass><offset>12</offset></harmony>"));
  CHECK(written.find(first) < written.find("<note>"));
  CHECK(written.size() > score.size());
}

TEST_CASE("a bar that comes again shows the chords of its first time") {
  const string score =
      score_xml("C4:4 {<barline location=\"right\"><repeat direction=\"backward\"/></barline>} | G4:4");
  CHECK(chords_in(score, {{Beats(0), chord("C")}, {Beats(4), chord("Am7")}, {Beats(8), chord("G7")}}) ==
        "C@0:4 C@4:4 G7@8:4");
}

TEST_CASE("a score with symbols of its own keeps them and gets no others") {
  const string score =
      score_xml("{<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>} C4:4 | G4:4");
  CHECK(with_chords(score, {{Beats(0), chord("Am7")}, {Beats(4), chord("G7")}}) == score);
}
