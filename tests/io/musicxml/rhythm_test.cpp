#include "tests/io/musicxml/score_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>

using insideline::tests::bars_of;
using insideline::tests::notes_of;
using insideline::tests::read_line;
using insideline::tests::refusal_of;
using insideline::tests::score_xml;
using insideline::tests::warning_lines;
using std::string;
using std::tuple;

TEST_CASE("notes, rests, ties and tuplets sound when and as long as they are written") {
  const auto [line, expected] = GENERATE(table<string, string>({
      {"C4:1 D4:1/2 E4:1/2 r:1 G4:1", "C4@0:1 D4@1:1/2 E4@3/2:1/2 G4@3:1"},
      {"C4:3/2 D4:1/2 r:2 | Eb4:4", "C4@0:3/2 D4@3/2:1/2 Eb4@4:4"},
      {"C4:1/3 D4:1/3 E4:1/3 F4:3", "C4@0:1/3 D4@1/3:1/3 E4@2/3:1/3 F4@1:3"},
      {"C4:4~ | ~C4:1 D4:3", "C4@0:5 D4@5:3"},
      {"C4:2~ ~C4:2~ | ~C4:2~ ~C4:2", "C4@0:8"},
      {"C4:2 C4:2", "C4@0:2 C4@2:2"},              // repeated, not tied
      {"C4:2~ D4:2", "C4@0:2 D4@2:2"},             // a tie to nowhere
      {"C4:2~ r:1 ~C4:1", "C4@0:2 C4@3:1"},        // a rest cuts a tie
      {"C#4:2~ ~Db4:2", "C#4@0:4"},                // an enharmonic tie sounds on
      {"D4:0 E4:0 F4:4", "D4@0 E4@0 F4@0:4"},      // grace notes before their note
      {"C4:4 G4:0 | D4:4", "C4@0:4 G4@4 D4@4:4"},  // and after one
      {"{<forward><duration>24</duration></forward>} C4:2", "C4@2:2"},
      {"C4:4 {<note><cue/><pitch><step>D</step><octave>4</octave></pitch><duration>12</duration></note>}", "C4@0:4"},
  }));
  CHECK(notes_of(read_line(line)) == expected);
}

TEST_CASE("divisions may change in the middle of a piece, and may be fractions") {
  const auto score = read_line(
      "C4:4 | {<attributes><divisions>2.5</divisions></attributes>} "
      "{<note><pitch><step>D</step><octave>4</octave></pitch><duration>5</duration></note>} "
      "{<note><pitch><step>E</step><octave>4</octave></pitch><duration>1.25</duration></note>} "
      "{<note><rest/><duration>3.75</duration></note>}");
  CHECK(notes_of(score) == "C4@0:4 D4@4:2 E4@6:1/2");
  CHECK(score.warnings.empty());
}

TEST_CASE("a triplet that was rounded to whole divisions is a triplet again") {
  const string triplet =
      "{<note><pitch><step>D</step><octave>4</octave></pitch><duration>85</duration><type>eighth</"
      "type><time-modification>"
      "<actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>} ";
  const auto score = read_line("{<attributes><divisions>256</divisions></attributes>} " + triplet + triplet + triplet +
                               "{<note><rest/><duration>768</duration></note>} | "
                               "{<attributes><divisions>12</divisions></attributes>} C4:4");
  CHECK(notes_of(score) == "D4@0:1/3 D4@1/3:1/3 D4@2/3:1/3 C4@4:4");
  CHECK(score.warnings.empty());
}

TEST_CASE("a note without a duration lasts as long as it is printed, with a warning") {
  const auto score =
      read_line("{<note><pitch><step>D</step><octave>4</octave></pitch><type>half</type><dot/></note>} C4:1");
  CHECK(notes_of(score) == "D4@0:3 C4@3:1");
  CHECK(warning_lines(score).find("1 note has no duration; its printed length was taken (bar 1)") != string::npos);
}

TEST_CASE("without divisions the printed note values tell how long the lengths are, with a warning") {
  const string note = "<pitch><step>D</step><octave>4</octave></pitch>";
  const auto read = [&](const string& music) {
    return insideline::io::parse_musicxml(
        insideline::tests::score_of_parts("<part id=\"P1\"><measure number=\"1\">" + music + "</measure></part>",
                                          {"Solo"}),
        "line.musicxml");
  };
  const auto score = read("<note><rest/><duration>9</duration></note><note>" + note +
                          "<duration>9</duration><type>quarter</type><dot/></note><note>" + note +
                          "<duration>3</duration><type>eighth</type></note>");
  CHECK(notes_of(score) == "D4@3/2:3/2 D4@3:1/2");
  CHECK(warning_lines(score).find(
            "no <divisions> say how long the lengths are; the printed note values told it (bar 1)") != string::npos);
  CHECK_THROWS_WITH(read("<note>" + note + "<duration>9</duration></note>"),
                    Catch::Matchers::Contains("a length comes before any <divisions>"));
}

TEST_CASE("a first bar that is not counted is a pickup without a time signature, too") {
  const auto bars = [](const string& line) {
    string xml = score_xml(line);
    const string time = "<time><beats>4</beats><beat-type>4</beat-type></time>";
    xml.erase(xml.find(time), time.size());
    xml.insert(xml.find("number=\"1\""), "implicit=\"yes\" ");
    return bars_of(insideline::io::parse_musicxml(xml, "line.musicxml"));
  };
  CHECK(bars("C4:1 | D4:4 | E4:4") == "0@-1:1 1@0:4 2@4:4");
  CHECK(bars("C4:1 | {<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>} D4:3") ==
        "0@-1:1 1@0:3");
  CHECK(bars("C4:4 | D4:4") == "1@0:4 2@4:4");
  CHECK(bars("C4:1") == "1@0:1");
}

TEST_CASE("bars are numbered from the first full one, whatever the page prints") {
  const auto [line, expected] = GENERATE(table<string, string>({
      {"C4:4 | D4:4", "1@0:4 2@4:4"},
      {"C4:1 | D4:4 | E4:4", "0@-1:1 1@0:4 2@4:4"},  // a pickup that nothing marks
      {"C4:1 | D4:4 | E4:3", "0@-1:1 1@0:4 2@4:3"},  // the last bar completes the pickup
      {"r:4 | C4:4", "1@0:4 2@4:4"},
      {"C4:4 | D4:3 | E4:1 | F4:4", "1@0:4 2@4:4 3@8:4"},  // a bar split in two is one bar
      {"C4:4 | D4:3 | F4:4", "1@0:4 2@4:4 3@8:4"},         // an incomplete bar is filled
      {"C4:4 | D4:5 | F4:4", "1@0:4 2@4:5 3@9:4"},         // an overfull bar is a longer bar
      {"C4:4 | | F4:4", "1@0:4 2@4:4 3@8:4"},              // an empty bar is a bar of rest
      {"{<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>} C4:3 | D4:3", "1@0:3 2@3:3"},
      {"{<attributes><time><beats>3+2</beats><beat-type>8</beat-type></time></attributes>} C4:5/2 | D4:5/2",
       "1@0:5/2 2@5/2:5/2"},
      {"C4:4 | {<attributes><time><senza-misura/></time></attributes>} D4:7 | E4:4", "1@0:4 2@4:7 3@11:4"},
      {"C4:4 | {<note><rest measure=\"yes\"/><duration>72</duration></note>} | F4:4", "1@0:4 2@4:4 3@8:4"},
  }));
  CHECK(bars_of(read_line(line)) == expected);
}

TEST_CASE("a meter of more beats than any bar has is left out, however it is added up") {
  const string terms = [] {
    string text = "1000";
    for (int term = 1; term < 3000; ++term) text += "+1000";
    return text;
  }();
  for (const string& time :
       {"<beats>" + terms + "</beats><beat-type>4</beat-type>", string("<beats>1000+1</beats><beat-type>4</beat-type>"),
        string("<beats>600</beats><beat-type>4</beat-type><beats>600</beats><beat-type>4</beat-type>")}) {
    const auto score = read_line("{<attributes><time>" + time + "</time></attributes>} C4:4 | D4:4");
    CHECK(bars_of(score) == "1@0:4 2@4:4");
    CHECK(warning_lines(score).find("1 time signature could not be read") != string::npos);
  }
}

TEST_CASE("what had to be repaired in the bars is told once, with a count and the bars") {
  const auto [line, expected] = GENERATE(table<string, string>({
      {"C4:4 | D4:3 | F4:4", "1 bar holds less than its meter and was filled with a rest (bar 2)"},
      {"C4:4 | D4:5 | E4:6 | F4:4", "2 bars hold more than their meter and were taken as longer bars (bars 2, 3)"},
      {"C4:4 back:9 D4:4", "1 backup leads out of its bar; the start of the bar was taken (bar 1)"},
      {"C4:4 | D4:4 | E4:1 | F4:4", "1 bar holds less than its meter and was filled with a rest (bar 3)"},
  }));
  CHECK(warning_lines(read_line(line)).find(expected) != string::npos);
}

TEST_CASE("a bar that is marked as not counted keeps its length and needs no warning") {
  auto xml = score_xml("C4:4 | D4:3 | E4:4");
  const auto place = xml.find("number=\"2\"");
  xml.insert(place, "implicit=\"yes\" ");
  const auto score = insideline::io::parse_musicxml(xml, "line.musicxml");
  CHECK(bars_of(score) == "1@0:4 2@4:3 3@7:4");
  CHECK(score.warnings.empty());
}

TEST_CASE("lengths that cannot be meant are refused where they stand") {
  const auto [bar, expected] = GENERATE(table<string, string>({
      {"{<attributes><divisions>0</divisions></attributes>} C4:4",
       "bar 1: \"0\" divisions of a quarter note cannot be used"},
      {"{<attributes><divisions>-4</divisions></attributes>} C4:4",
       "bar 1: \"-4\" divisions of a quarter note cannot be used"},
      {"{<attributes><divisions>1000000000</divisions></attributes>} C4:4",
       "\"1000000000\" divisions of a quarter note"},
      {"{<attributes><divisions>four</divisions></attributes>} C4:4", "\"four\" divisions of a quarter note"},
      {"{<note><pitch><step>D</step><octave>4</octave></pitch><duration>-12</duration></note>}",
       "bar 1: a note cannot last -1 quarter notes"},
      {"{<note><pitch><step>D</step><octave>4</octave></pitch><duration>12x</duration></note>}",
       "bar 1: \"12x\" is not a length"},
      {"{<note><pitch><step>D</step><octave>4</octave></pitch><duration>999999999999</duration></note>}",
       "cannot be meant"},
      {"{<note><pitch><step>D</step><octave>4</octave></pitch></note>}", "neither a <duration> nor a <type>"},
      {"{<note><pitch><step>H</step><octave>4</octave></pitch><duration>12</duration></note>}", "this is not a pitch"},
      {"{<note><pitch><step>D</step></pitch><duration>12</duration></note>}", "this is not a pitch"},
      {"{<note><pitch><step>D</step><alter>40</alter><octave>4</octave></pitch><duration>12</duration></note>}",
       "\"40\" is not an alteration"},
      {"{<note><pitch><step>D</step><octave>10</octave></pitch><duration>12</duration></note>}",
       "D10 sounds outside of what can be heard"},
  }));
  const string message = refusal_of(score_xml(bar));
  CAPTURE(message);
  CHECK(message.find(expected) != string::npos);
  CHECK(message.starts_with("solo.musicxml:1:"));
}

TEST_CASE("a tie that is only printed sounds, with a warning") {
  const auto printed = [](const string& step, const string& ties, const string& tied) {
    return "{<note><pitch><step>" + step + "</step><octave>4</octave></pitch><duration>24</duration>" + ties +
           "<notations>" + tied + "</notations></note>} ";
  };
  const string start = "<tied type=\"start\"/>";
  const string stop = "<tied type=\"stop\"/>";
  const auto score =
      read_line(printed("C", "", start) + printed("C", "", stop + start) + "| " + printed("C", "", stop));
  CHECK(notes_of(score) == "C4@0:6");
  CHECK(warning_lines(score).find("2 ties were read from their print, as nothing says that they sound (bar 1)") !=
        string::npos);
  // Where the sound is told it is believed, and no warning is due.
  const auto told =
      read_line(printed("C", "<tie type=\"start\"/>", start) + printed("C", "<tie type=\"stop\"/>", stop));
  CHECK(notes_of(told) == "C4@0:4");
  CHECK(told.warnings.empty());
  CHECK(notes_of(read_line(printed("C", "", "<tied type=\"let-ring\"/>") + printed("C", "", ""))) == "C4@0:2 C4@2:2");
}

TEST_CASE("a first bar that lacks less than a beat may be a pickup or a slip, which is told") {
  const auto nearly = read_line("C4:7/2 | D4:4");
  CHECK(bars_of(nearly) == "0@-7/2:7/2 1@0:4");
  CHECK(warning_lines(nearly).find("1 bar lacks less than a beat and was read as a pickup") != std::string::npos);
  CHECK(read_line("C4:3 | D4:4").warnings.empty());
}

TEST_CASE("a sign to repeat bars plays their notes and chords again") {
  const string start =
      "{<attributes><measure-style><measure-repeat type=\"start\">1</measure-repeat></measure-style></attributes>} ";
  const string stop = "{<attributes><measure-style><measure-repeat type=\"stop\"/></measure-style></attributes>} ";
  const auto score = read_line("C4:2 E4:2 | " + start + "r:4 | r:4 | " + stop + "G4:4");
  CHECK(notes_of(score) == "C4@0:2 E4@2:2 C4@4:2 E4@6:2 C4@8:2 E4@10:2 G4@12:4");
  CHECK(warning_lines(score).find(
            "2 bars have signs to repeat what stands before them and were played so (bars 2, 3)") != string::npos);
}
