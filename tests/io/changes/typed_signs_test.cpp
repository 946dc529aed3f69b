// Charts as forty different people would type them, each with the bars that it means, and what is still refused.
#include "io/changes/typed_signs.hpp"

#include "io/changes/changes_file.hpp"
#include "io/changes/rewritten_chart.hpp"
#include "io/read_result.hpp"
#include "tests/io/changes/chart_shorthand.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using Catch::Matchers::Contains;
using insideline::io::ChartReading;
using insideline::io::parse_changes;
using insideline::io::parse_chart;
using insideline::tests::chart_error;
using insideline::tests::played;
using insideline::tests::whole_chart_error;
using std::string;

namespace {

/// The names of the sections in the order of their bars, each where it begins.
string section_names(const insideline::Changes& changes) {
  string names;
  for (const auto& bar : changes.bars)
    if (bar.starts_section) names += (names.empty() ? "" : " ") + bar.section;
  return names;
}

string only_warning(const string& text) {
  const ChartReading reading = parse_chart(text, "a.changes");
  REQUIRE(reading.warnings.size() == 1);
  return to_string(reading.warnings.front());
}

}  // namespace

TEST_CASE("sloppy charts are read as they are meant") {
  const auto [text, bars] = GENERATE(table<string, string>({
      // symbols that a blank splits
      {"| C min7 | F7 sus4 | Bb maj 7 |", "Cmin7 | F7sus4 | Bbmaj7"},
      {"| C m7 F 7 | Bb maj7 |", "Cm7 2 F7 2 | Bbmaj7"},
      {"| G7 b9 | G7 #5 #9 | G7 (b9, #11) |", "G7b9 | G7#5#9 | G7(b9, #11)"},
      {"| C m7 . F 7 . | D m7 / G sus 4 / |", "Cm7 2 F7 2 | Dm7 2 Gsus4 2"},
      {"| C /E | F maj7 /A Bb7 |", "C/E | Fmaj7/A 2 Bb7 2"},
      {"| C - 7 | F -7 | Bb + |", "C-7 | F-7 | Bb+"},
      {"| B m7 b5 E7 alt | A m |", "Bm7b5 2 E7alt 2 | Am"},
      {"| C dim | D 6 9 | E add 9 |", "Cdim | D69 | Eadd9"},
      {"| a min7 | D 7 |", "amin7 | D7"},
      // dashes, signs and blanks of word processors
      {"| C\u20147 | F\u20137 | G\u22127 | A\u20117 |", "C\u20147 | F\u20137 | G\u22127 | A\u20117"},
      {"| C \u2212 F \u2013 | G7 \u2014 \u2014 C |", "C 2 F 2 | G7 3 C 1"},
      {"| B\u266D\u25B37 | C\u266F\u00F8 | E\u266D\u00B07 |", "B\u266D\u25B37 | C\u266F\u00F8 | E\u266D\u00B07"},
      {"\xEF\xBB\xBF|\tC\t|\t%\t|\r\n|\tF m7\t|\t%\t|\r\n", "C | C | Fm7 | Fm7"},
      {"| C | NC | n.c. | N. C. | No Chord |", "C | N.C. | N.C. | N.C. | N.C."},
      // repeats and endings
      {"|: C | F |1 G7 :|2 C |", "C | F | G7 | C | F | C"},
      {"|: C | F |1st G7 :|2nd C |", "C | F | G7 | C | F | C"},
      {"|: C | F |[1] G7 :|[2] C |", "C | F | G7 | C | F | C"},
      {"|: C |1,2 G7 :|3 F |", "C | G7 | C | G7 | C | F"},
      {"||: C | F :|| x 3", "C | F | C | F | C | F"},
      {"|: C | F :| (2 x)\n| G7 |", "C | F | C | F | G7"},
      {"|: C | F :| 3 times\n", "C | F | C | F | C | F"},
      {"| C | F | x 2", "C | F | C | F"},
      {"| F 7 x 2 | C |", "F7 | F7 | C"},
      {"|1 C |2 F |3 G7 |4 C |", "C | F | G7 | C"},
      // remarks
      {"// after the second take\n| C | F | // slow here\n| G7 | C | // turn back", "C | F | G7 | C"},
      {"//from memory\n| C // F |", "C 3 F 1"},
      {"| C | F | G7 | C | (turnaround)", "C | F | G7 | C"},
      {"style: medium swing\nFeel: two beats\nArranged by: the evening class\n| C |", "C"},
      {"Quay Song\nfor the evening class\n4/4, not fast\nkey: C\n| C | F |", "C | F"},
      {"Quay Song\nby the evening class\ntempo: ca. 120\n3/4 | C | F |\n4/4 | G7 |", "C 3 | F 3 | G7"},
      {"bpm: 96\nTime signature: 3/4\n| C |", "C 3"},
      {"\u2669 = 120 is the tempo of this tune\ntempo: \u2669 = 120\n| C |", "C"},
      // sections
      {"(A) | F7 | C7 |\n(B) | G7 |", "F7 | C7 | G7"},
      {"(A)\n| F7 |\n(B)\n| G7 |", "F7 | G7"},
      {"A) | F7 |\nB) | G7 |", "F7 | G7"},
      {"(Intro) | C |\nVerse\n| F | G7 |\nbridge\n| Am |", "C | F | G7 | Am"},
      {"Verse:\n| F |\nChorus:\n| G |", "F | G"},
      {"form: A B A\n(A) | F7 |\n(B) | G7 |", "F7 | G7 | F7"},
  }));
  CAPTURE(text);
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("a split symbol is joined only where its second part is no chord") {
  const auto [text, bars] = GENERATE(table<string, string>({
      {"| C F7 | G a |", "C 2 F7 2 | G 2 A 2"},            // a small letter is a chord
      {"| C b9 |", "C 2 B9 2"},                            // nothing that it could alter
      {"| C7 B9 |", "C7 2 B9 2"},                          // a capital is a root
      {"| Bb b7 |", "Bb 2 B7 2"},                          // joined it had another root
      {"| C - F - |", "C 2 F 2"},                          // held
      {"| C / E / |", "C 2 E 2"},                          //
      {"| C // F | (A) F7 |", "C 3 F 1 | A 2 F7 2"},       //
      {"| (A) F7 |", "A 2 F7 2"},                          // inside a bar a chord
      {"| C | F |\n(A7) | D7 |", "C | F | A7 | D7"},       // more than a letter
      {"|: 1 C | 2 F :|\n| 3 G7 |", "C | F | C | F | G7"}  // the bars' own numbers
  }));
  CAPTURE(text);
  CHECK(played(parse_changes(text, "a.changes")) == bars);
}

TEST_CASE("what was typed apart or in another form is told with its place") {
  CHECK(only_warning("| Dm7 | C min7 |") == "a.changes:1:9: \"C min7\" is read as Cmin7");
  CHECK(only_warning("|: C |1 F :|2. G |") == "a.changes:1:7: 1 is read as an ending; one is written |1.");
  CHECK(only_warning("(A) | F7 |") == "a.changes:1:1: (A) is read as a section; one is written [A]");
  CHECK(only_warning("(A) F7 | C7 |") ==
        "a.changes:1:1: bar 1 begins with the chord A; a section is written [A] or A:");
  CHECK(only_warning("style: swing\n| C |") ==
        "a.changes:1:1: \"style:\" says nothing about the notes and is left out");
  CHECK(only_warning("Quay Song\nby us all\n| C |") == "a.changes:2:1: \"by us all\" above the bars is left out");
  CHECK(only_warning("| C | (turnaround)") == "a.changes:1:7: (turnaround) is left out");
}

TEST_CASE("a chart without bar lines is told how it is read, once") {
  CHECK(only_warning("C7 F7 C7 C7\nF7 F7 C7 C7\n") ==
        "a.changes:1:1: there are no bar lines, so each line is one bar that its chords share; where each chord has a "
        "bar "
        "write | C7 | F7 |");
  CHECK(only_warning("title: Quay\nC, F, G7\n").starts_with("a.changes:2:1: there are no bar lines"));
  CHECK(only_warning("C,F,G7,C\nF,F,C,C\n").ends_with("where each chord has a bar write | C | F |"));
  CHECK(parse_chart("C7\nF7\nC min7\nC . F .\n", "a.changes").warnings.size() == 1);  // the blank in C min7 alone
}

TEST_CASE("a line without a bar line between lines with bars is told, and so are letters meant for sections") {
  CHECK(only_warning("| C | G7 |\n  A      B\n| F | C |") ==
        "a.changes:2:3: bar 3 is this line, as no bar line stands in it: its 2 chords share one bar; a section is "
        "written [A] before a bar line");
  CHECK(only_warning("| C | F |\nDm7 G7\n") ==
        "a.changes:2:1: bar 3 is this line, as no bar line stands in it: its 2 chords share one bar");
}

TEST_CASE("a chord in brackets names a section, which is told; letters and words do so silently") {
  CHECK(only_warning("[Dm7] | G7 | C |") ==
        "a.changes:1:1: [Dm7] is read as the name of a section; a chord is written without brackets, | Dm7 |");
  CHECK(parse_chart("[A] | C |\n[A2] | F |\n[Bridge] | G |\n[A'] | C |", "a.changes").warnings.empty());
}

TEST_CASE("a bracket that none opens is told, one over several bars is not") {
  CHECK(only_warning("| C7b9) | F |") == "a.changes:1:3: bar 1: the ) of \"C7b9)\" closes nothing and is left out");
  CHECK(parse_chart("| C7(b9) | (Am7 | Dm7, G7) | (F) |", "a.changes").warnings.empty());
}

TEST_CASE("an intro or coda comes again in every chorus where no form leaves it out, which is told") {
  CHECK(only_warning("[Intro] | C | G7 |\n[A] | F | C |\n[B] | G |") ==
        "a.changes:1:11: Intro comes again in every chorus; a line `form: A B` above the bars leaves it out, and "
        "--start-bar says where the form then begins");
  CHECK(only_warning("[A] | F |\n[coda] | C |").starts_with("a.changes:2:10: coda comes again"));
  CHECK(parse_chart("form: A\n[Intro] | C |\n[A] | F |", "a.changes").warnings.empty());
  CHECK(parse_chart("[Intro] | C | F |", "a.changes").warnings.empty());
}

TEST_CASE("sections in parentheses and those called by a word have their names") {
  CHECK(section_names(parse_changes("(A) | F7 |\n(B) | G7 |", "a.changes")) == "A B");
  CHECK(section_names(parse_changes("Intro\n| C |\nVerse\n| F |\nbridge\n| G |", "a.changes")) == "Intro Verse bridge");
  CHECK(parse_changes("Intro\n| C |", "a.changes").title.empty());
  CHECK(parse_changes("Verse:\n| F |", "a.changes").title.empty());
  CHECK(parse_changes("key: C\nQuay Song\n| F |", "a.changes").title == "Quay Song");
}

TEST_CASE("a chart typed with blanks inside its symbols can be written in another key") {
  const insideline::io::ChartRewriting up{.by = insideline::usual_interval(2), .accidentals = {}};
  CHECK(rewritten_chart("key: C\n(A) |: C m7 . F 7 . | Bb maj7 |1 a7 :|2 D min 7 |\n", "a.changes", up) ==
        "key: D\n(A) |: Dm7 . G7 . | Cmaj7 |1 B7 :|2 Emin7 |\n");
}

TEST_CASE("twelve charts that nobody can be sure of are refused, each with one clear error") {
  const auto [text, message] = GENERATE(table<string, string>({
      {"| C 2 F 2 | G |", "1:5: bar 1: \"2\": an ending is written |1. with a full stop, right after its bar line"},
      {"[: C | F :]", "1:1: a repeat is written |: and :|"},
      {"| Dm7 -> G7 |", "1:7: bar 1: chord \"->\" cannot be read: found \"-\" where a root, A to G, was expected"},
      {"| Dm7-G7 | C |",
       "1:7: bar 1: chord \"Dm7-G7\" cannot be read: found \"G\" where a quality, a number, an alteration or a slash "
       "can "
       "stand; nearest: Dm7"},
      {"| C | %% | F |", "1:7: bar 2: chord \"%%\" cannot be read: found \"%\" where a root, A to G, was expected"},
      {"| C | F | D.C. al Fine |",
       "1:11: bar 3: \"D.C.\": jumps are not read; name sections like [A] and put their order in the header form"},
      {"tempo: Medium Swing\n| C |",
       "1:8: \"Medium Swing\" is not a tempo; write quarter notes a minute, from 20 to 400"},
      {"| C | F ||\nrepeat and fade",
       "2:1: bar 3: chord \"repeat\" cannot be read: found \"r\" where a root, A to G, was expected"},
      {"| C | (Hmaj7) |",
       "1:7: bar 2: chord \"(Hmaj7)\" cannot be read: found \"(\" where a root, A to G, was expected"},
      {"|: C |1 F |2 G |", "1:7: bar 2: \"1\": an ending is written |1. with a full stop, right after its bar line"},
      {"// | C | F |\n| G |", "1:1: bar 1: no chord stands before this //"},
      {"| C | 3/4 F |", "1:7: bar 2: chord \"3/4\" cannot be read: found \"3\" where a root, A to G, was expected"},
  }));
  CAPTURE(text);
  CHECK_THAT(chart_error(text), Catch::StartsWith(message));
}
