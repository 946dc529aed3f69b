// Inversions of triads and seventh chords by their lowest note: Hutchinson, Music Theory
// for the 21st-Century Classroom, 6.3. The other rows are counted by hand.
#include "analyzer/arpeggios.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/analysed.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Arpeggio;
using insideline::Direction;
using insideline::tests::analysed;
using insideline::tests::AnalysedLine;
using insideline::tests::in_lengths_of;

namespace {

std::string described(const Arpeggio& arpeggio) {
  std::string text;
  for (const insideline::Degree& degree : arpeggio.degrees) text += to_string(degree) + ' ';
  text += "| " + to_string(arpeggio.direction) + ", " + to_string(arpeggio.inversion);
  text += arpeggio.complete ? ", complete" : ", part";
  text += ", spells " + (arpeggio.spells.empty() ? "nothing" : arpeggio.spells);
  if (arpeggio.straight_descent) text += ", straight down";
  if (arpeggio.octave_displaced) text += ", displaced";
  if (arpeggio.repeats) text += ", repeats";
  if (!arpeggio.ornaments.empty()) text += ", ornamented";
  return text;
}

/// Counts for each note where a way through three members ends: at a turn, or at the end.
std::pair<int, int> ways_by_pitch(const insideline::Solo& solo, const std::vector<std::size_t>& notes) {
  std::pair<int, int> ways{0, 0};
  std::vector<int> pitches;
  for (const std::size_t note : notes) {
    const int midi = midi_number(solo.notes[note].pitch);
    if (pitches.empty() || pitches.back() != midi) pitches.push_back(midi);
  }
  for (std::size_t end = 1; end < pitches.size(); ++end) {
    const bool up = pitches[end] > pitches[end - 1];
    if (end + 1 < pitches.size() && (pitches[end + 1] > pitches[end]) == up) continue;
    std::set<int> members{pitches[end] % 12};
    for (std::size_t at = end; at > 0 && (pitches[at] > pitches[at - 1]) == up; --at)
      members.insert(pitches[at - 1] % 12);
    if (members.size() >= 3) ++(up ? ways.first : ways.second);
  }
  return ways;
}

std::string all_described(const AnalysedLine& line) {
  std::string text;
  for (const Arpeggio& arpeggio : line.analysis.arpeggios) text += (text.empty() ? "" : "; ") + described(arpeggio);
  return text;
}

}  // namespace

TEST_CASE("an arpeggio is told by its degrees, its way, its lowest note and what it spells") {
  const auto [chord, melody, expected] = GENERATE(table<std::string, std::string, std::string>({
      {"C7", "C4 E4 G4 Bb4", "1 3 5 b7 | ascending, root position, complete, spells C7"},
      {"Cmaj7", "E4 G4 B4 D5", "3 5 7 9 | ascending, first inversion, part, spells Em7"},
      {"G7", "B3 D4 F4 A4", "3 5 b7 9 | ascending, first inversion, part, spells Bm7b5"},
      {"C6", "E4 G4 A4 C5", "3 5 6 1 | ascending, first inversion, complete, spells C6"},
      {"Am7", "A3 C4 E4 G4", "1 b3 5 b7 | ascending, root position, complete, spells Am7"},
      {"F#dim7", "A3 C4 Eb4 F#4", "b3 b5 bb7 1 | ascending, first inversion, complete, spells F#dim7"},
      {"C7sus4", "C4 F4 G4 Bb4", "1 4 5 b7 | ascending, root position, complete, spells C7sus4"},
      {"D7/C", "D4 F#4 A4 C5", "1 3 5 b7 | ascending, root position, complete, spells D7"},
      {"Dm7", "E5 C5 A4 F4", "9 b7 5 b3 | descending, first inversion, part, spells Fmaj7, straight down"},
      {"Fmaj7", "B4 G4 E4 C4", "#11 9 7 5 | descending, second inversion, part, spells Cmaj7, straight down"},
      {"C7#11", "D5 F#5 A5", "9 #11 13 | ascending, upper structure, part, spells D"},
      {"C", "C4 G4 E4 G4 C4", "1 5 3 5 1 | mixed, root position, complete, spells C"},
  }));
  const AnalysedLine line = analysed(chord + "@0", in_lengths_of("1/2", melody));
  CHECK(all_described(line) == expected);
}

TEST_CASE("the lowest note names the inversion, whichever way the arpeggio runs") {
  const auto [chord, melody, inversion] = GENERATE(table<std::string, std::string, std::string>({
      {"C", "C4 E4 G4", "root position"},
      {"C", "G4 E4 C4", "root position"},
      {"C", "E4 G4 C5", "first inversion"},
      {"C", "C5 G4 E4", "first inversion"},
      {"C", "G3 C4 E4", "second inversion"},
      {"C", "E4 C4 G3", "second inversion"},
      {"Cmaj7", "C4 E4 G4 B4", "root position"},
      {"Cmaj7", "B4 G4 E4 C4", "root position"},
      {"Cmaj7", "E4 G4 B4 C5", "first inversion"},
      {"Cmaj7", "C5 B4 G4 E4", "first inversion"},
      {"Cmaj7", "G3 B3 C4 E4", "second inversion"},
      {"Cmaj7", "E4 C4 B3 G3", "second inversion"},
      {"Cmaj7", "B3 C4 E4 G4", "third inversion"},
      {"Cmaj7", "G4 E4 C4 B3", "third inversion"},
  }));
  const AnalysedLine line = analysed(chord + "@0", in_lengths_of("1", melody));
  REQUIRE(line.analysis.arpeggios.size() == 1);
  CHECK(to_string(line.analysis.arpeggios.front().inversion) == inversion);
  CHECK(line.analysis.arpeggios.front().complete);
}

TEST_CASE("what is not an arpeggio is not called one") {
  const auto [why, chord, melody] = GENERATE(table<std::string, std::string, std::string>({
      {"two notes", "C", "C4 G4"},
      {"a trill between two members", "C", "C4 E4 C4 E4 C4"},
      {"a scale", "Cmaj7", "C4 D4 E4 F4 G4 A4 B4"},
      {"steps through a chord whose symbol names the ninth", "C9", "C4 D4 E4 D4 C4"},
      {"a ninth that only goes round the root, with the seventh", "Dm7", "D5 E5 C5 D5"},
      {"the same note in three octaves", "C", "C3 C4 C5"},
      {"a pentatonic scale over a chord that has its notes", "C6/9", "C4 D4 E4 D4 C4 D4"},
  }));
  INFO(why);
  CHECK(all_described(analysed(chord + "@0", in_lengths_of("1/2", melody))).empty());
}

TEST_CASE("a ninth belongs to the arpeggio where the stack goes on, and not where a step leads on from it") {
  const AnalysedLine line = analysed("C7@0", in_lengths_of("1/2", "C4 E4 G4 Bb4 D5 C5"));
  CHECK(all_described(line) == "1 3 5 b7 9 | ascending, root position, complete, spells C9");
  const AnalysedLine lone = analysed("C7@0", in_lengths_of("1/2", "D5 G4 E4 C4"));
  CHECK(all_described(lone) == "5 3 1 | descending, root position, part, spells C, straight down");
  const AnalysedLine flat = analysed("Ab7b9@0", in_lengths_of("1/2", "A4 Eb4 C4 Ab3"));
  CHECK(all_described(flat) == "5 3 1 | descending, root position, part, spells Ab, straight down");
}

TEST_CASE("repeated notes and notes in another octave do not break an arpeggio, and are told") {
  const auto [melody, expected] = GENERATE(table<std::string, std::string>({
      {"C4 C4 E4 G4 G4", "1 1 3 5 5 | ascending, root position, part, spells C, repeats"},
      {"C4 E3 G3 B3", "1 3 5 7 | ascending, first inversion, complete, spells Cmaj7, displaced"},
      {"B4 G5 E5 C5", "7 5 3 1 | descending, third inversion, complete, spells Cmaj7, straight down, displaced"},
      {"C4 E5 G5", "1 3 5 | ascending, root position, part, spells C, displaced"},
      {"C4 E4 G3", "1 3 5 | mixed, second inversion, part, spells C"},
  }));
  CHECK(all_described(analysed("Cmaj7@0", in_lengths_of("1/2", melody))) == expected);
}

TEST_CASE("a chord written again in the next bar is one chord for an arpeggio") {
  const AnalysedLine line = analysed("C7@0 C7@4", "r:2 C4:1 E4:1 G4:1 Bb4:1");
  REQUIRE(line.analysis.arpeggios.size() == 1);
  CHECK(line.analysis.arpeggios.front().notes == std::vector<std::size_t>{0, 1, 2, 3});
}

TEST_CASE("an arpeggio does not run on into another chord or across a phrase") {
  CHECK(all_described(analysed("C@0 Am@2", "C4:1 G4:1 E4:1 C5:1")).empty());
  CHECK(all_described(analysed("C@0", "C4:1 E4:1 r:2 G4:1 C5:1")).empty());
}

TEST_CASE("a descent is straight unless the phrase has climbed through the same chord before") {
  const auto [melody, straight] = GENERATE(table<std::string, int>({
      {"Bb4:1/2 G4:1/2 E4:1/2 C4:1/2", 1},
      {"C4:1/2 E4:1/2 G4:1/2 Bb4:1/2 G4:1/2 E4:1/2 C4:1/2", 0},          // up and down in one
      {"C4:1/2 E4:1/2 G4:1/2 F4:1/2 F#4:1/2 Bb4:1/2 G4:1/2 E4:1/2", 0},  // up, two notes between, and down
      {"C4:1/2 E4:1/2 G4:1/2 r:5/2 Bb4:1/2 G4:1/2 E4:1/2", 1},           // up in another phrase
      {"G4:1/2 E4:1/2 C4:1/2 E4:1/2 G4:1/2", 1},                         // down first, then up
      {"C4:1/2 E4:1/2 G4:1/2", 0},
  }));
  CHECK(analysed("C7@0", melody).analysis.summary.straight_descents == straight);
}

TEST_CASE("approach notes between the members make an ornamented arpeggio") {
  const AnalysedLine line = analysed("Cmaj7@0", in_lengths_of("1/2", "C4 G4 D#4 E4 B4"));
  REQUIRE(line.analysis.arpeggios.size() == 1);
  const Arpeggio& arpeggio = line.analysis.arpeggios.front();
  CHECK(described(arpeggio) == "1 5 3 7 | mixed, root position, complete, spells Cmaj7, ornamented");
  CHECK(arpeggio.notes == std::vector<std::size_t>{0, 1, 3, 4});
  CHECK(arpeggio.ornaments == std::vector<std::size_t>{2});
  CHECK(line.analysis.summary.arpeggio_share == insideline::Share{4, 5});
}

TEST_CASE("a chord that is played over another is found, with its degrees over the chord below and its own inversion") {
  const auto [chord, melody, expected] = GENERATE(table<std::string, std::string, std::string>({
      {"D7", "E4 G4 B4", "9 11 13 | ascending, root position, part, spells Em"},
      {"D7", "C5 G4 E4", "b7 11 9 | descending, first inversion, part, spells C, straight down"},
      {"G7", "B3 D4 F4 Ab4", "3 5 b7 b9 | ascending, first inversion, part, spells Bdim7"},
      {"Bb7", "Ab4 F4 Db4", "b7 5 #9 | descending, root position, part, spells Db, straight down"},
      {"A7", "Bb3 D4 F4 A4 C5", "b9 11 b13 1 #9 | ascending, root position, part, spells Bbmaj9"},
      {"Eb7", "Bb4 A4 F4 D4 Bb3", "5 #11 9 7 5 | descending, root position, part, spells Bbmaj7, straight down"},
  }));
  CHECK(all_described(analysed(chord + "@0", in_lengths_of("1/2", melody))) == expected);
}

TEST_CASE("a side-slipped stack says how far it lies from the chord below") {
  const auto [melody, away] = GENERATE(table<std::string, int>({
      {"Eb4 G4 Bb4 Db5", 1},
      {"Db4 F4 Ab4 B4", -1},
  }));
  const AnalysedLine line = analysed("D7@0", in_lengths_of("1/2", melody));
  REQUIRE(line.analysis.arpeggios.size() == 1);
  CHECK(line.analysis.arpeggios.front().slipped == away);
  const AnalysedLine upper = analysed("D7@0", in_lengths_of("1/2", "E4 G4 B4"));
  CHECK_FALSE(upper.analysis.arpeggios.at(0).slipped);
}

TEST_CASE("notes between the members may pass, as long as the line leaps as well and the members weigh more") {
  const auto [why, chord, melody, expected] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {"a passing tone", "Fm7", "Eb5:1 C5:1/2 Bb4:1/2 Ab4:1 F4:1",
       "b7 5 b3 1 | descending, root position, complete, spells Fm7, straight down, ornamented"},
      {"a neighbour", "Eb7", "Bb4:1 G4:1/2 Gb4:1/2 G4:1/2 Eb4:1",
       "5 3 3 1 | descending, root position, part, spells Eb, straight down, repeats, ornamented"},
      {"a scale", "C", "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2", ""},
      {"the passing tone on the beat, the members off it", "Fm7", "r:1/2 Ab4:1/2 Bb4:1/2 C5:1/2 D5:1/2 Eb5:1/2", ""},
  }));
  INFO(why);
  CHECK(all_described(analysed(chord + "@0", melody)) == expected);
}

TEST_CASE("a rest of a beat parts what stands on either side of it, a shorter one does not") {
  CHECK(all_described(analysed("C@0", "C4:1 E4:1 r:1 G4:1")).empty());
  CHECK(analysed("C@0", "C4:1 E4:1/2 r:1/2 G4:1").analysis.arpeggios.size() == 1);
}

TEST_CASE("a scale in thirds is no arpeggio") {
  CHECK(all_described(analysed("Cmaj7@0", in_lengths_of("1/2", "C4 E4 D4 F4 E4 G4 F4 A4"))).empty());
}

TEST_CASE("at a change a note may end one arpeggio and begin the next, or be taken early") {
  const AnalysedLine both = analysed("F7@0 C7@2", "F4:1 Eb4:1/2 C4:1/2 E4:1/2 G4:1/2");
  CHECK(all_described(both) ==
        "1 b7 5 | descending, second inversion, part, spells nothing, straight down; "
        "1 3 5 | ascending, root position, part, spells C");
  CHECK(both.analysis.arpeggios[0].notes.back() == both.analysis.arpeggios[1].notes.front());
  const AnalysedLine early = analysed("E7@0 Am6@4", "r:2 C5:1 A4:1 E4:1");
  CHECK(all_described(early) == "b3 1 5 | descending, second inversion, part, spells Am, straight down");
  CHECK(early.analysis.arpeggios[0].governor == 1);
  const AnalysedLine carried = analysed("Emaj7@0 Db7@2", "r:1 B5:1 G#5:1/2 E5:1/2");
  CHECK(all_described(carried) == "5 3 1 | descending, root position, part, spells E, straight down");
  CHECK(carried.analysis.arpeggios[0].governor == 0);
}

TEST_CASE("an arpeggio ends where the chord changes, unless the notes on one side belong to the chord on the other") {
  const auto [why, chords, melody, expected] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {"the arrival on the third of the next chord", "G7@0 Cmaj7@2", "D5:1/2 B4:1/2 G4:1 E4:1",
       "5 3 1 | descending, root position, part, spells G, straight down"},
      {"the next chord taken early", "A7b9@0 Dm7@2", "A4:1/2 Bb4:1/2 C#5:1/2 F5:3/2 E5:1", ""},
      {"the same with three notes before it", "A7b9@0 Dm7@2", "G4:1/2 Bb4:1/2 C#5:1/2 F5:3/2 E5:1",
       "b7 b9 3 | ascending, third inversion, part, spells Gdim"},
      {"two notes and one above the next root", "F7@0 Dm7@1", "A4:1/2 C5:1/2 E5:1/2 C#5:1/2 D5:1", ""},
      {"two notes and one that both chords have", "C7@0 F@1", "G4:1/2 E4:1/2 C4:2", ""},
      {"three notes and one that both chords have", "Cm7@0 Fm7@3/2", "G4:1/2 Bb4:1/2 C5:1/2 Eb5:2",
       "5 b7 1 b3 | ascending, second inversion, complete, spells Cm7"},
      {"tones of the next chord lead into it", "Amaj7@0 F#7@1", "E5:1/2 C#5:1/2 A#4:1 C#5:1",
       "b7 5 3 | descending, first inversion, part, spells A#dim, straight down"},
      {"common tones lead into the next chord and its ninth", "Dm7@0 G7@1", "F5:1/2 D5:1/2 B4:1/2 Ab4:1/2 G4:1",
       "b7 5 3 b9 | descending, first inversion, part, spells Bdim7, straight down"},
      {"a colour that both chords have", "Ebmaj7@0 Ebm7@1/2", "F4:1/2 Ab4:1/2 C5:1/2 Db5:1/2 Bb4:1/2",
       "9 11 13 | ascending, root position, part, spells Fm"},
  }));
  INFO(why);
  CHECK(all_described(analysed(chords, melody)) == expected);
}

TEST_CASE("a fragment that comes down and goes up again is one figure with two legs, and counts both ways") {
  const AnalysedLine line = analysed("E@0", in_lengths_of("1/2", "E5 B4 G#4 B4 E5"));
  REQUIRE(line.analysis.arpeggios.size() == 1);
  const Arpeggio& arpeggio = line.analysis.arpeggios.front();
  CHECK(arpeggio.direction == Direction::mixed);
  REQUIRE(arpeggio.legs.size() == 2);
  CHECK(arpeggio.legs[0].direction == Direction::descending);
  CHECK(arpeggio.legs[0].last == 2);
  CHECK_FALSE(arpeggio.legs[0].prepared);
  CHECK(arpeggio.legs[1].direction == Direction::ascending);
  CHECK(arpeggio.legs[1].first == 2);
  CHECK(arpeggio.legs[1].prepared);
  CHECK(to_string(arpeggio.legs[1].inversion) == "first inversion");
  const auto& summary = line.analysis.summary;
  CHECK(summary.arpeggios == 1);
  CHECK(summary.arpeggios_ascending == 1);
  CHECK(summary.arpeggios_descending == 1);
  CHECK(summary.arpeggios_two_way == 1);
  CHECK(summary.straight_descents == 1);
}

TEST_CASE("a turn with fewer than three members is no leg") {
  const AnalysedLine line = analysed("Dmaj7@0", in_lengths_of("1/2", "D4 F#4 A4 C#5 A4"));
  CHECK(all_described(line) == "1 3 5 7 5 | ascending, root position, complete, spells Dmaj7");
  CHECK(line.analysis.arpeggios.at(0).legs.size() == 1);
}

TEST_CASE("third, fifth and flat ninth of a dominant are the diminished seventh on its third") {
  CHECK(analysed("G7b9@0", in_lengths_of("1/2", "D5 B4 Ab4")).analysis.arpeggios.at(0).spells == "Bdim7");
  CHECK(analysed("G7b9@0", in_lengths_of("1/2", "B4 D5 F5")).analysis.arpeggios.at(0).spells == "Bdim");
  CHECK(analysed("Dm7@0", in_lengths_of("1/2", "G5 E5 C#5")).analysis.arpeggios.at(0).spells == "C#dim");
}

TEST_CASE("counted again from the pitches alone, the legs are the same") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const auto random = insideline::tests::random_line(seed, 16);
    const auto analysis = insideline::tests::analysed(random.solo, random.harmony).analysis;
    int up = 0;
    int down = 0;
    for (const Arpeggio& arpeggio : analysis.arpeggios) {
      if (arpeggio.octave_displaced) continue;
      const auto [ups, downs] = ways_by_pitch(random.solo, arpeggio.notes);
      up += ups;
      down += downs;
      CHECK(std::ranges::count(arpeggio.legs, Direction::ascending, &insideline::Leg::direction) == ups);
      CHECK(std::ranges::count(arpeggio.legs, Direction::descending, &insideline::Leg::direction) == downs);
    }
    CHECK(analysis.summary.arpeggios_ascending >= up);
    CHECK(analysis.summary.arpeggios_descending >= down);
  }
}

TEST_CASE("grace notes are passed over") {
  const AnalysedLine line = analysed("C@0", "C4:1 D#4:0 E4:1 G4:1");
  REQUIRE(line.analysis.arpeggios.size() == 1);
  CHECK(line.analysis.arpeggios.front().notes == std::vector<std::size_t>{0, 2, 3});
}

TEST_CASE("transposing line and chords together changes nothing in the arpeggios but names") {
  for (unsigned seed = 1; seed <= 8; ++seed) {
    const auto line = insideline::tests::random_line(seed, 8);
    const auto before = insideline::tests::analysed(line.solo, line.harmony).analysis.arpeggios;
    for (const int semitones : {1, 4, 7, -3}) {
      const auto by = insideline::usual_interval(semitones);
      const auto after = insideline::tests::analysed(insideline::tests::transposed(line.solo, by),
                                                     insideline::tests::transposed(line.harmony, by))
                             .analysis.arpeggios;
      REQUIRE(after.size() == before.size());
      for (std::size_t i = 0; i < after.size(); ++i) {
        CHECK(after[i].notes == before[i].notes);
        CHECK(after[i].degrees == before[i].degrees);
        CHECK(after[i].direction == before[i].direction);
        CHECK(after[i].inversion == before[i].inversion);
        CHECK(after[i].straight_descent == before[i].straight_descent);
      }
    }
  }
}
