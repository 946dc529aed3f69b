// Inversions of triads and seventh chords by their lowest note: Hutchinson, Music Theory
// for the 21st-Century Classroom, 6.3. The other rows are counted by hand.
#include "analyzer/arpeggios.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/analysed.hpp"

#include <string>

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
