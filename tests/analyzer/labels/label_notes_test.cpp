#include "analyzer/labels/label_notes.hpp"

#include "analyzer/phrases.hpp"
#include "tests/support/labelled.hpp"
#include "tests/support/melody.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Meter;
using insideline::Settings;
using insideline::tests::codes;
using insideline::tests::labelled;
using Text = std::string;

namespace {

struct Line {
  Text chords;
  Text melody;
  Beats start_beat;
  Text labels;
};

void check_table(const std::vector<Line>& table) {
  for (const Line& line : table) {
    INFO(line.chords << " | " << line.melody << " from beat " << to_string(line.start_beat));
    CHECK(codes(labelled(line.chords, line.melody, line.start_beat).labels) == line.labels);
  }
}

}  // namespace

TEST_CASE("a tone of the sounding chord is a chord tone whatever the line does") {
  check_table({{"C@0", "C4:1 E4:1 G4:1 E4:1", 1, "CT:1 CT:3 CT:5 CT:3"},
               {"C7@0 F@2", "G4:1 E4:1 F4:2", 3, "CT:5 CT:3 CT:1"},
               {"C9@0", "D5:1 E5:1", 1, "CT:9 CT:3"},
               {"C7sus4@0", "F4:1 G4:1", 1, "CT:4 CT:5"}});
}

TEST_CASE("a passing tone steps on in its direction") {
  check_table({{"C@0", "E4:1/2 D4:1/2 C4:1", 1, "CT:3 PT CT:1"},
               {"C7@0", "C5:1/2 B4:1/2 Bb4:1", 1, "CT:1 PT CT:b7"},
               {"F7@0", "F4:1/2 G4:1/2 G#4:1/2 A4:1/2", 1, "CT:1 PT PT CT:3"},
               // an augmented second that is spelled as a step passes too
               {"Fm@0", "F4:1/2 Eb4:1/2 D4:1/2 C4:1/2", 1, "CT:1 PT PT CT:5"},
               // turned back, it does not pass
               {"C@0", "E4:1/2 D4:1/2 E4:1", 1, "CT:3 NT CT:3"}});
}

TEST_CASE("a neighbour tone comes back to the note it left") {
  check_table({{"G7@0", "D5:1/2 Eb5:1/2 D5:1/2 B4:1/2", 1, "CT:5 NT CT:5 CT:3"},
               {"Cm7@0", "Eb4:1/2 D4:1/2 Eb4:1", 1, "CT:b3 NT CT:b3"},
               // back to the same letter a half step higher
               {"Cm@0 C@1", "Eb4:1/2 D4:1/2 E4:1", 1, "CT:b3 NT CT:3"},
               // a note on the other side of the target: both close in on it
               {"G7b9@0", "Ab4:1/2 F#4:1/2 G4:1", 1, "CT:b9 ENC CT:1"},
               {"C7@0", "F4:1/2 D#4:1/2 E4:1", 1, "ENC ENC CT:3"},
               // to another octave or another note it is no neighbour
               {"Cmaj7@0", "G4:1/2 A4:1/2 B4:1", 1, "CT:5 PT CT:7"}});
}

TEST_CASE("a double neighbour takes both sides of a note just heard, an enclosure of one still to come") {
  check_table({{"Bb@0", "F4:1/2 G4:1/2 E4:1/2 F4:1/2", 1, "CT:5 DN DN CT:5"},
               {"Cmaj7@0", "F5:1/2 D5:1/2 E5:2", 4, "ENC ENC CT:3"},
               {"Cmaj7@0", "D#5:1/2 F5:1/2 E5:2", 4, "ENC ENC CT:3"},
               {"Fmaj7@0", "C5:1/2 Bb4:1/2 G4:1/2 G#4:1/2 A4:1", 1, "CT:5 ENC ENC ENC CT:3"},
               // both from one side: two half steps in line, no enclosure
               {"C@0", "F#5:1/2 F5:1/2 E5:1", 2, "APR PT CT:3"}});
}

TEST_CASE("an enclosure reaches over the bar line into the next chord") {
  check_table({{"F7@0 Bbmaj7@2", "A4:1 Eb5:1/2 C#5:1/2 D5:2", 3, "CT:3 CT:b7 ENC CT:3"},
               {"Dm7@0 G7@2", "A4:1 C#5:1/2 Bb4:1/2 B4:2", 3, "CT:5 ENC ENC CT:3"}});
}

TEST_CASE("one enclosure is heard as one, wherever in the bar it begins") {
  for (const Beats start : {Beats(1), Beats(3, 2), Beats(2), Beats(7, 2)})
    check_table({{"C7@0", "F4:1/2 D4:1/2 D#4:1/2 E4:1/2 G4:1", start, "ENC ENC ENC CT:3 CT:5"},
                 {"Ab7@0", "Db5:1/2 Bb4:1/2 B4:1/2 C5:1/2 Eb5:1", start, "ENC ENC ENC CT:3 CT:5"}});
}

TEST_CASE("two sides close in on a third to come, and where the third comes early there is no neighbour") {
  check_table({{"Em7@0", "A4:1/2 F#4:1/2 G4:1/2 B4:1/2 D5:1", 1, "ENC ENC CT:b3 CT:5 CT:b7"},
               {"D7@0 Gmaj7@2", "A4:1/2 F#4:1/2 C5:1/2 A#4:1/2 B4:2", 3, "CT:5 CT:3 CT:b7 ENC CT:3"}});
}

TEST_CASE("a fourth that steps down to the third leans, however long it stays") {
  check_table({{"F7@0", "C5:1 Bb4:2 A4:2", 4, "CT:5 APP CT:3"},
               {"F7@0", "C5:1 Bb4:3 A4:1", 4, "CT:5 APP CT:3"},
               {"D7@0", "A4:1 G4:3/2 F#4:1/2 D4:2", 4, "CT:5 APP CT:3 CT:1"},
               {"Cmaj7@0", "G4:1 C4:1 F4:2 E4:1", 3, "CT:5 CT:1 APP CT:3"},
               // over a minor chord the eleventh is a colour
               {"Dm7@0", "A4:1 D5:1 G4:2 D4:1", 3, "CT:5 CT:1 T:11 CT:1"}});
}

TEST_CASE("leap in, step out: an approach on a weak place, an appoggiatura on a strong one") {
  check_table({{"Cmaj7@0", "G4:1/2 Eb5:1/2 E5:1", 2, "CT:5 APR CT:3"},
               {"C@0 F@2", "G3:2 Bb3:1 A3:1", 1, "CT:5 APP CT:3"},
               {"Fmaj7@0", "C4:1 F4:1 Bb4:1 A4:1", 1, "CT:5 CT:1 APP CT:3"}});
}

TEST_CASE("an escape tone steps out and leaps back") {
  check_table(
      {{"Gm@0 C7@2", "Bb2:1 A2:1 C3:2", 1, "CT:b3 ESC CT:1"}, {"Bbmaj7@0", "F5:1 Eb5:1/2 A5:1/2", 1, "CT:5 ESC CT:7"}});
}

TEST_CASE("a tension is held, left by leap or where the line comes to rest") {
  check_table({{"Cmaj7@0", "G4:1 D5:1 B4:1 G4:1", 1, "CT:5 T:9 CT:7 CT:5"},
               {"G7@0", "B4:1 E5:2 D5:1", 1, "CT:3 T:13 CT:5"},
               {"Cm7@0", "Eb4:1/2 G4:1/2 Bb4:1/2 D5:1/2 r:2", 1, "CT:b3 CT:5 CT:b7 T:9"},
               // the same ninth in running eighths passes
               {"Cmaj7@0", "E4:1/2 D4:1/2 C4:1/2 B3:1/2", 1, "CT:3 PT CT:1 CT:7"},
               // an avoid note held and left by leap is not excused
               {"Cmaj7@0", "G4:1 F5:2 B4:1", 1, "CT:5 OUT CT:7"}});
}

TEST_CASE("the minor third over a dominant is a sharp ninth, or leads to the third") {
  check_table({{"C7@0", "G4:1/2 Eb4:1 C4:1/2 G4:2", 1, "CT:5 T:#9 CT:1 CT:5"},
               {"C7@0", "G4:1/2 Eb4:1/2 E4:1", 2, "CT:5 APR CT:3"},
               {"C7@0", "D4:1/2 Eb4:1/2 E4:1", 1, "APR PT CT:3"},
               {"C7@0", "G4:1/2 Gb4:1/2 F4:1/2 E4:1/2", 1, "CT:5 PT PT CT:3"},
               {"C7@0", "r:1 Gb4:1 C4:2", 1, "T:#11 CT:1"}});
}

TEST_CASE("an anticipation is a tone of the next chord, tied over or struck again") {
  check_table({{"Dm7@0 G7@1", "C5:1/2 B4:5/2", 4, "CT:b7 CT:3@next"},
               {"G@0 C@2", "B4:3/2 C5:1/2 C5:2", 1, "CT:3 CT:1@next CT:1"},
               {"Cmaj7@0 Fmaj7@4", "E4:1 G4:1 E4:1 B4:1/2 A4:1/2 r:4", 1, "CT:3 CT:5 CT:3 CT:7 CT:3@next"},
               // stepped through to another note it passes
               {"G7@0 C@2", "B4:3/2 C5:1/4 D5:1/4 C5:1", 1, "CT:3 PT CT:5 CT:1"}});
}

TEST_CASE("a suspension resolves down, a retardation up") {
  check_table({{"F@0 G@2 C@4", "C5:2 C5:1 B4:1 C5:4", 1, "CT:5 CT:5@prev-sus CT:3 CT:1"},
               {"C@0 F@2", "E4:2 E4:1 F4:1", 1, "CT:3 CT:3@prev-ret CT:1"},
               // tied over, the one note keeps its first chord and hangs over
               {"F@0 G@2 C@4", "C5:3 B4:1 C5:4", 1, "CT:5@prev-sus CT:3 CT:1"},
               // a short breath lets it be heard on, a rest of a beat does not
               {"F@0 G@2 C@4", "C5:3/2 r:1/2 C5:1 B4:1 C5:4", 1, "CT:5 CT:5@prev-sus CT:3 CT:1"},
               {"F@0 G@2 C@4", "C5:1 r:1 C5:1 B4:1 C5:4", 1, "CT:5 APP CT:3 CT:1"},
               {"G7@0 C7@2", "F4:1 r:3/2 F4:1/2 D#4:1/2 E4:1/2", 3, "CT:b7 ENC ENC CT:3"},
               // common to both chords, nothing is suspended
               {"F@0 Am@2", "C5:3 B4:1 A4:2", 1, "CT:5 PT CT:1"}});
}

TEST_CASE("a pedal stays while the harmony moves") {
  check_table({{"F@0 Gm7@2 C7@4 F@6", "F3:2 F3:2 F3:2 F3:4", 1, "CT:1 CT:b7 PED CT:1"}});
}

TEST_CASE("a rest of a beat is a wall: the note across it is no neighbour") {
  check_table(
      {{"C@0", "E4:1/2 D4:1/2 r:1 C4:1", 1, "CT:3 T:9 CT:1"}, {"C@0", "E4:1/2 D4:1/2 C4:1", 1, "CT:3 PT CT:1"}});
}

TEST_CASE("strict hearing knows no anticipation and no suspension") {
  Settings strict;
  strict.hearing = insideline::Hearing::strict;
  CHECK(codes(labelled("Dm7@0 G7@1", "C5:1/2 B4:5/2", 4, {}, strict).labels) == "CT:b7 T:13");
  CHECK(codes(labelled("F@0 G@2 C@4", "C5:2 C5:1 B4:1 C5:4", 1, {}, strict).labels) == "CT:5 APP CT:3 CT:1");
}

TEST_CASE("a pickup is heard against the chord it leads to") {
  const auto line = labelled("C@1", "G4:1 E4:2", -1);
  CHECK_FALSE(line.labels[0].chord.has_value());
  CHECK(line.labels[0].governor == 0);
  CHECK(codes(line.labels) == "CT:5@next CT:3");
  CHECK(line.labels[0].reason == "fifth of C, in the pickup");
}

TEST_CASE("under N.C. a note has no chord and no degree") {
  const auto line = labelled("C@0 N.C.@2 C@4", "E4:2 D4:2 C4:2");
  CHECK(line.labels[1].role == insideline::Role::no_chord);
  CHECK(line.labels[1].figure == insideline::Figure::none);
  CHECK_FALSE(line.labels[1].chord.has_value());
  CHECK_FALSE(line.labels[1].degree.has_value());
}

TEST_CASE("a grace note is heard against the chord of the note it decorates") {
  const auto line = labelled("C7@0", "D#4:0 E4:1 G4:1");
  CHECK(line.labels[0].figure == insideline::Figure::approach_tone);
  CHECK(line.labels[0].resolves_to == 1);
  CHECK(to_string(*line.labels[0].degree) == "#9");
  CHECK(codes({line.labels[1], line.labels[2]}) == "CT:3 CT:5");
}

TEST_CASE("each label says in a sentence why") {
  const auto reasons = [](const Text& chords, const Text& melody, const Beats& start) {
    std::vector<Text> texts;
    for (const auto& label : labelled(chords, melody, start).labels) texts.push_back(label.reason);
    return texts;
  };
  CHECK(reasons("Cmaj7@0", "E4:1/2 D4:1/2 C4:1", 1) ==
        std::vector<Text>{"third of Cmaj7 on beat 1", "passes down by step from 3 to 1, on the and of 1",
                          "root of Cmaj7 on beat 2"});
  CHECK(reasons("Dm7@0 G7@1", "C5:1/2 B4:5/2", 4)[1] == "third of G7, half a beat before its chord and held into it");
  CHECK(reasons("Cmaj7@0", "E4:1/2 F4:1/2 E4:1", 1)[1] == "steps up from 3 and comes back, on the and of 1");
  CHECK(reasons("Cmaj7@0 Am7@1", "E4:1/2 F4:1/2 E4:1", 1)[1] == "steps up from 3 and comes back, on the and of 1");
  CHECK(reasons("Cm@0 C@1", "Eb4:1/2 D4:1/2 E4:1", 1)[1] == "steps down from b3 and turns back to 3, on the and of 1");
  CHECK(reasons("Cmaj7@0", "G4:1/2 Eb5:1/2 E5:1", 2)[1] == "a half step below 3 of Cmaj7, which follows");
  CHECK(reasons("Cmaj7@0", "F5:1/2 D5:1/2 E5:2", 4)[0] == "closes in on 3 of Cmaj7 from above");
  CHECK(reasons("G7@0", "B4:1 E5:2 D5:1", 1)[1] == "thirteenth of G7, held");
  CHECK(reasons("F@0 G@2", "C5:2 C5:1 B4:1", 1)[1] == "fifth of F, kept over into G and resolving down by step");
}

TEST_CASE("a non-chord tone names the note it leads to") {
  const auto line = labelled("Cmaj7@0", "F5:1/2 D5:1/2 E5:2", 4);
  CHECK(line.labels[0].resolves_to == 2);
  CHECK(line.labels[1].resolves_to == 2);
  CHECK_FALSE(line.labels[2].resolves_to.has_value());
}

TEST_CASE("explaining a note lists every reading with the rows that decided") {
  const auto line = labelled("G7@0", "B4:1 E5:2 D5:1");
  const auto readings =
      insideline::explain_note(line.solo, line.harmony, insideline::find_phrases(line.solo, line.harmony), 1);
  REQUIRE(readings.size() >= 3);
  double sum = 0.0;
  for (const auto& reading : readings) sum += reading.probability;
  CHECK(sum == Approx(1.0).epsilon(1e-9));
  CHECK(readings.front().role == insideline::Role::tension);
  CHECK(readings.front().rows.front().name == "tension");
  CHECK_FALSE(readings.front().rows.front().why.empty());
}
