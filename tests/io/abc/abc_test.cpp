#include "io/abc/abc.hpp"

#include "io/read_result.hpp"
#include "tests/support/folders.hpp"

#include <fmt/format.h>

#include <catch2/catch.hpp>

#include <string>
#include <string_view>

using Catch::Matchers::Contains;
using insideline::Beats;
using insideline::io::parse_abc;
using insideline::io::ReadError;
using insideline::io::ReadOptions;
using insideline::io::ReadResult;
using std::string;

namespace {

/// "C4 1 E4 1/2 ...": pitch and length of every note; a rest or gap between two is "-".
string line_of(const ReadResult& read) {
  string line;
  Beats now = read.solo.bars.front().onset;
  for (const insideline::Note& note : read.solo.notes) {
    if (note.onset > now) line += "- ";
    line += note.grace ? fmt::format("({}) ", to_string(note.pitch))
                       : fmt::format("{} {} ", to_string(note.pitch), to_string(note.duration));
    now = end_of(note);
  }
  if (!line.empty()) line.pop_back();
  return line;
}

string line(const string& music, const string& header = "M:4/4\nL:1/4\nK:C\n") {
  return line_of(parse_abc("X:1\n" + header + music + "\n", "a.abc"));
}

string chords_of(const ReadResult& read) {
  string chords;
  if (!read.changes) return chords;
  for (const insideline::ChordSpan& span : read.changes->spans)
    chords += fmt::format("{}{} {}", chords.empty() ? "" : " | ", span.chord ? span.chord->symbol : "N.C.",
                          to_string(span.duration));
  return chords;
}

string refusal(const string& text) {
  try {
    parse_abc(text, "a.abc");
  } catch (const ReadError& error) {
    return string(error.what()).substr(0, string(error.what()).find('\n'));
  }
  return "read";
}

string warnings_of(const ReadResult& read) {
  string all;
  for (const auto& warning : read.warnings) all += to_string(warning) + "\n";
  return all;
}

}  // namespace

TEST_CASE("a note typed in ABC has its name, octave and length") {
  const auto [music, notes] = GENERATE(table<string, string>({
      {"C, C c c'", "C3 1 C4 1 C5 1 C6 1"},
      {"^F _B =B ^^c", "F#4 1 Bb4 1 B4 1 C##5 1"},
      {"C2 C/2 C/ C3/4 C//", "C4 2 C4 1/2 C4 1/2 C4 3/4 C4 1/4"},
      {"F ^F F2 | F4", "F4 1 F#4 1 F#4 2 F4 4"},
      {"^F f F2", "F#4 1 F#5 1 F#4 2"},
      {"C z E2", "C4 1 - E4 2"},
      {"(3CDE (3c2B c2", "C4 2/3 D4 2/3 E4 2/3 C5 4/3 B4 2/3 C5 4/3"},
      {"(5:4CDEFG", "C4 4/5 D4 4/5 E4 4/5 F4 4/5 G4 4/5"},
      {"C>D E<F | G>>A B<<<c", "C4 3/2 D4 1/2 E4 1/2 F4 3/2 G4 7/4 A4 1/4 B4 1/8 C5 15/8"},
      {"C4- | C2 ^F2- | F2 F2", "C4 6 F#4 4 F4 2"},
      {"(C D) (E F)", "C4 1 D4 1 E4 1 F4 1"},
      {"{d}C {ef}D [CEG]2", "(D5) C4 1 (E5) (F5) D4 1 G4 2"},
      {"C D & E2 F | G", "C4 1 D4 1 - G4 1"},
      {"!fermata!C .D ~E vF", "C4 1 D4 1 E4 1 F4 1"},
  }));
  CAPTURE(music);
  CHECK(line(music) == notes);
}

TEST_CASE("the key colours every note that has no sign of its own") {
  CHECK(line("E F B =E", "M:4/4\nL:1/4\nK:Eb\n") == "Eb4 1 F4 1 Bb4 1 E4 1");
  CHECK(line("C F G c", "M:4/4\nL:1/4\nK:D dorian\n") == "C4 1 F4 1 G4 1 C5 1");
  CHECK(line("F G B c", "M:4/4\nL:1/4\nK:Dphr ^f\n") == "F#4 1 G4 1 Bb4 1 C5 1");
  CHECK(line("F C | [K:Eb] E2 A2 |", "M:2/4\nL:1/4\nK:D\n") == "F#4 1 C#4 1 Eb4 2 Ab4 2");
  CHECK(to_string(parse_abc("X:1\nM:4/4\nL:1/4\nK:Ddor\nA4 |\n", "a.abc").solo.keys[0].key) == "D dorian");
  const ReadResult read = parse_abc("X:1\nM:4/4\nL:1/4\nK:Am\nA4 |\nK:F\nA4 |\n", "a.abc");
  REQUIRE(read.solo.keys.size() == 2);
  CHECK(to_string(read.solo.keys[0].key) == "A minor");
  CHECK(to_string(read.solo.keys[1].key) == "F");
}

TEST_CASE("the unit note length follows from the meter where no L: says it") {
  CHECK(line("C8", "M:4/4\nK:C\n") == "C4 4");
  CHECK(line("C8", "M:2/4\nK:C\n") == "C4 2");
  CHECK(line("C6", "M:3/4\nK:C\n") == "C4 3");
  CHECK(line("C8 |\nM:2/4\nC4", "M:4/4\nK:C\n") == "C4 4 C4 2");  // a later meter leaves it as it was
  CHECK(line("C4 |\nL:1/8\nC8", "M:4/4\nL:1/4\nK:C\n") == "C4 4 C4 4");
}

TEST_CASE("parts are sections as they are played, and a double bar line is kept") {
  const auto read = parse_abc("X:1\nM:4/4\nL:1/4\nP:A2B\nK:C\nP:A\nC4 | D4 ||\nP:B\nE4 | F4 |]\n", "a.abc");
  string marks;
  for (const auto& mark : read.solo.marks) marks += mark.name + "@" + to_string(mark.onset) + " ";
  CHECK(marks == "A@0 A@8 B@16 ");
  string lines;
  for (const Beats& place : read.solo.double_bars) lines += to_string(place) + " ";
  CHECK(lines == "8 16 ");
}

TEST_CASE("repeats and endings are played") {
  const auto [music, played] = GENERATE(table<string, string>({
      {"|: C4 :| D4 |", "C4 4 C4 4 D4 4"},
      {"C4 :| D4 |", "C4 4 C4 4 D4 4"},
      {"|: C4 |1 D4 :|2 E4 |", "C4 4 D4 4 C4 4 E4 4"},
      {"|: C4 |[1,3 D4 :|[2 E4 :|", "C4 4 D4 4 C4 4 E4 4 C4 4 D4 4"},
      {"|: C4 :: D4 :|", "C4 4 C4 4 D4 4 D4 4"},
      {"|:: C4 ::| D4 |", "C4 4 C4 4 C4 4 D4 4"},
      {"C4 | !segno!D4 | E4 !D.S.! |]", "C4 4 D4 4 E4 4 D4 4 E4 4"},
      {"| :C4 : | D4 |", "C4 4 C4 4 D4 4"},
  }));
  CAPTURE(music);
  CHECK(line(music) == played);
  CHECK(line("P:A\nC4 |\nP:B\nD4 |", "M:4/4\nL:1/4\nP:A2B\nK:C\n") == "C4 4 C4 4 D4 4");
}

TEST_CASE("a first bar that is short is a pickup") {
  const ReadResult read = parse_abc("X:1\nM:4/4\nL:1/4\nK:C\nG | C4 | C3 |]\n", "a.abc");
  CHECK(read.solo.bars.front().number == 0);
  CHECK(read.solo.notes.front().onset == Beats(-1));
  CHECK(read.warnings.empty());
}

TEST_CASE("chord symbols are the changes, and remarks are not") {
  const ReadResult read =
      parse_abc("X:1\nM:4/4\nL:1/4\nK:Bb\n\"Cm7\"c2 \"F7\"^A2 | \"^Fine line\"B2 \"Bb6\"B2 |]\n", "a.abc");
  CHECK(chords_of(read) == "Cm7 2 | F7 4 | Bb6 2");
  CHECK(read.warnings.empty());
  const ReadResult word = parse_abc("X:1\nM:4/4\nL:1/4\nK:C\n\"C\"c4 | \"Bridge\" c4 |\n", "a.abc");
  CHECK(chords_of(word) == "C 8");
  CHECK_THAT(warnings_of(word), Contains("a.abc:5:9: \"Bridge\" is no chord and was taken as a remark"));
}

TEST_CASE("a part that sounds elsewhere moves its notes and chords together") {
  const ReadResult read = parse_abc("X:1\nM:4/4\nL:1/4\nK:D transpose=-14\n\"Em7\"E4 |\n", "a.abc");
  CHECK(line_of(read) == "D3 4");
  CHECK(chords_of(read) == "Dm7 4");
  CHECK(to_string(read.solo.notes[0].written) == "E4");
  CHECK(to_string(read.solo.keys[0].key) == "C");
  const ReadResult clef = parse_abc("X:1\nM:4/4\nL:1/4\nK:C clef=treble-8\nE4 |\n", "a.abc");
  CHECK(line_of(clef) == "E3 4");
  CHECK(line_of(parse_abc("X:1\nM:4/4\nL:1/4\nK:C octave=-1\nE4 |\n", "a.abc")) == "E3 4");
  ReadOptions options;
  options.transpose = -2;
  CHECK(line_of(parse_abc("X:1\nM:4/4\nL:1/4\nK:D\n^F4 |\n", "a.abc", options)) == "E4 4");
  CHECK_THAT(warnings_of(parse_abc("X:1\nM:4/4\nL:1/4\nK:D transpose=-2\nF4 |\n", "a.abc", options)),
             Contains("the transposition asked for was not applied"));
}

TEST_CASE("of several voices the first with a single line is read, or the one asked for") {
  const string text = "X:1\nM:4/4\nL:1/4\nV:1 name=\"Piano\"\nV:2 name=\"Horn\"\nK:C\nV:1\n\"C\"[CEG]4 |\nV:2\nc4 |\n";
  const ReadResult read = parse_abc(text, "a.abc");
  CHECK(read.solo.part == "Horn");
  CHECK(chords_of(read) == "C 4");
  ReadOptions options;
  options.part = "piano";
  CHECK(line_of(parse_abc(text, "a.abc", options)) == "G4 4");
  options.part = "Drums";
  CHECK_THROWS_WITH(parse_abc(text, "a.abc", options),
                    "a.abc: there is no voice \"Drums\"; the tune has 1 \"Piano\", 2 \"Horn\"");
}

TEST_CASE("of several tunes the first with notes is read, or the one asked for") {
  const string text = "X:1\nT:Words\nK:C\n\nX:2\nT:Quay\nK:C\nC8 |\n\nX:3\nT:Pier\nK:C\nD8 |\n";
  const ReadResult read = parse_abc(text, "a.abc");
  CHECK(read.solo.title == "Quay");
  CHECK_THAT(warnings_of(read), Contains("the file has 3 tunes, of which \"Quay\" was read; --tune chooses"));
  ReadOptions options;
  options.tune = GENERATE(as<string>{}, "3", "pier");
  CHECK(parse_abc(text, "a.abc", options).solo.title == "Pier");
  options.tune = "9";
  CHECK_THROWS_WITH(parse_abc(text, "a.abc", options), Contains("there is no tune \"9\"; the file has X:1 \"Words\""));
}

TEST_CASE("the tempo of a tune in ABC is told in quarter notes a minute") {
  const auto tempo = [](const string& field) {
    return parse_abc("X:1\nM:6/8\nL:1/8\n" + field + "\nK:C\nC6 |\n", "a.abc").solo.tempo_bpm;
  };
  CHECK(tempo("Q:1/4=120") == 120.0);
  CHECK(tempo("Q:3/8=80") == 120.0);
  CHECK(tempo("Q:\"Allegro\" 1/2=60") == 120.0);
  CHECK(tempo("Q:240") == 120.0);
  CHECK_FALSE(tempo("Q:\"Slowly\""));
}

TEST_CASE("a text without X: or K: is a tune where its name says so") {
  CHECK(line_of(parse_abc("C2 E2 G2 c2 |", "four.abc")) == "C4 1 E4 1 G4 1 C5 1");
  CHECK(insideline::io::is_abc("C2 E2 G2 c2 |", "four.ABC"));
  CHECK(insideline::io::is_abc("X:1\nK:C\nC8|\n", "tune.txt"));
  CHECK_FALSE(insideline::io::is_abc("C4 E4 G4", "solo.musicxml"));
  CHECK_FALSE(insideline::io::is_abc("<score a=\"\nX:\nK:\"/>", "solo.xml"));
}

TEST_CASE("what was left out is told once") {
  CHECK_THAT(warnings_of(parse_abc("X:1\nC:evening class\nR:reel\nK:C\nC8 |\nw: la\n", "a.abc")),
             Contains("a.abc:2:1: what stands behind C: R: w: was not used"));
  CHECK_THAT(warnings_of(parse_abc("X:1\nK:C\nC8 |\n\nD8 |\n", "a.abc")),
             Contains("a.abc:5:1: an empty line ends a tune, so this music was not read"));
}

TEST_CASE("what is not ABC is refused with line, column and the way out") {
  const string head = "X:1\nM:4/4\nL:1/4\nK:C\n";
  const auto [music, message] = GENERATE(table<string, string>({
      {"C D ? E",
       "a.abc:5:5: \"?\" is neither a note nor a sign of ABC; notes are C to B and c to b, a rest is z, "
       "words begin with a field such as w:"},
      {"C ^ D", "a.abc:5:4: a note from A to G or a to g is expected behind this sign"},
      {"C [CE", "a.abc:5:3: this [ has no ]; notes that sound together are written [CEG]"},
      {"C {d", "a.abc:5:3: these grace notes have no }"},
      {"C \"Am7 D", "a.abc:5:3: this \" has no partner in its line"},
      {"C : D", "a.abc:5:3: a single colon is no bar line; a repeat is written |: or :|"},
      {":| C4 |", "a.abc:5:1: no bar stands before this :| to be repeated"},
      {"> C4", "a.abc:5:1: a broken rhythm > or < stands between two notes of one bar"},
      {"- C4", "a.abc:5:1: a tie - stands right behind the note that sounds on"},
      {"(10CDE",
       "a.abc:5:1: this tuplet cannot be read; write (3 or (p:q:r, p notes in the time of q for the next r notes"},
      {"C0", "a.abc:5:2: this is not a length; write A2, A/2, A3/2 or A/"},
      {"C99999", "a.abc:5:2: this number is too large; 1024 is the most"},
      {"[K:H] C", "a.abc:5:4: \"H\" is not part of a key; write K:Eb, K:Am, K:Ddor or K:D ^c"},
      {"[M:four] C", "a.abc:5:4: \"four\" is not a meter; write M:4/4, M:6/8, M:C, M:C| or M:none"},
      {"[L:x] C", "a.abc:5:4: \"x\" is not a unit note length; write L:1/8 or L:1/4"},
      {"[Q:fast=] C", "a.abc:5:4: \"fast=\" is not a tempo; write Q:1/4=120"},
      {"Z0 |", "a.abc:5:1: a rest of no bars; write Z4 for four"},
      {"c'''''' |", "a.abc:5:1: too many octave signs; no instrument goes so far"},
      {"z4 |",
       "a.abc: there is no note in this file; a tune in ABC is a line K:C and then notes, like | C2 E2 G2 z2 |"},
  }));
  CAPTURE(music);
  CHECK(refusal(head + music) == message);
}

TEST_CASE("a chord that nobody can read is refused, and bytes that are no text") {
  CHECK_THAT(refusal("X:1\nK:C\nC \"Dm7xq\" D"),
             Contains("a.abc:3:") && Contains("a remark is written with a ^ in front"));
  CHECK_THAT(refusal(string("X:1\nK:C\nC\0D", 11)), Contains("this is not a text file"));
}

TEST_CASE("lengths that no bar can hold are refused and do not overflow") {
  CHECK_THAT(refusal("X:1\nK:C\nC/997 C/991 C/983 C/977 C/971 |"), Contains("add up to"));
  CHECK_THAT(refusal("X:1\nM:none\nK:C\nC/997 | C/991 | C/983 | C/977 | C/971 | C/967 | C/953 |"),
             Contains("add up to"));
}
