#include "analyzer/patterns/blues.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

namespace {

insideline::Patterns patterns_in(const std::string& chords, const std::string& melody) {
  return analysed(chords, in_lengths_of("1/2", melody)).analysis.patterns;
}

std::string blue_degrees(const std::string& chords, const std::string& melody) {
  std::string text;
  for (const auto& blue : patterns_in(chords, melody).blue_notes) text += std::to_string(blue.degree) + ' ';
  return text;
}

}  // namespace

TEST_CASE("a lowered third or seventh over a chord with the major one is blue") {
  const auto [chord, melody, blue] = GENERATE(table<std::string, std::string, std::string>({
      {"C7@0", "G4 Eb4 C4", "3 "},
      {"C7@0", "Eb4 E4 G4", "3 "},  // led up to the third
      {"C6@0", "C5 Bb4 G4", "7 "},
      {"C@0", "G4 Bb4 G4 Eb4 C4", "7 3 "},
      {"C7@0", "C5 Bb4 G4", ""},     // a tone of the chord
      {"Cm7@0", "G4 Eb4 C4", ""},    // its own third
      {"C7@0", "D4 Eb4 E4 G4", ""},  // fills the whole step
      {"C6@0", "B4 Bb4 A4 G4", ""},
      {"Csus4@0", "G4 Eb4 C4", ""},
      {"C7@0", "F4 Eb4 E4 G4", ""},  // the lower half of an enclosure
      {"C7@0", "E4 Eb4 E4 G4", ""},  // a neighbour
      {"C@0", "C5 Bb4 C5 G4", ""},
      {"C7@0", "G4 Eb4 E4 G4", "3 "},  // from too far to close in
      {"C7alt@0", "Bb4 Eb4 C4", ""},   // its sharp ninth
      {"C7#9@0", "G4 D#4 C4", ""},
  }));
  CHECK(blue_degrees(chord, melody) == blue);
}

TEST_CASE("a flat fifth among the notes of the blues scale is blue") {
  const auto [chord, melody, blue] = GENERATE(table<std::string, std::string, std::string>({
      {"C7@0", "G4 Gb4 Eb4 C4", "5 3 "},
      {"C7@0", "C5 G4 F4 Gb4 F4", "5 "},
      {"Cm7@0", "C4 Eb4 Gb4 F4 Eb4", "5 "},
      {"C7@0", "Bb4 C5 F4 Gb4", "5 "},  // left standing
      {"C7@0", "F4 Gb4 G4 Bb4", ""},    // fills the whole step
      {"C7@0", "G4 F#4 G4 Bb4", ""},    // a neighbour
      {"C7@0", "A4 F#4 G4 E4", ""},     // the lower half of an enclosure
      {"C7@0", "E4 F#4 G4 A4", ""},     // of another scale
      {"C7@0", "D5 F#4 A4 C5", ""},     // a raised eleventh
      {"C7@0", "G4 F#4 E4 C4", ""},
      {"C7#11@0", "G4 F#4 Eb4 C4", "3 "},  // asked for
      {"C7b5@0", "F4 Gb4 Eb4 C4", "3 "},
      {"Cm7b5@0", "F4 Gb4 Eb4 C4", ""},
      {"Cmaj7@0", "G4 F#4 G4 E4", ""},
  }));
  CHECK(blue_degrees(chord, melody) == blue);
}

TEST_CASE("five neighbours in a minor pentatonic are a run") {
  const auto [chord, melody, root] = GENERATE(table<std::string, std::string, int>({
      {"C7@0", "C5 Bb4 G4 F4 Eb4 C4", 0},
      {"Am7@0", "A4 G4 E4 D4 E4", 9},
      {"C7@0", "C5 Bb4 G4 F4", -1},            // four notes
      {"C7@0", "C5 Bb4 G4 Bb4 C5 Bb4", -1},    // three pitches
      {"C7@0", "C5 Bb4 G4 F4 E4 C4", -1},      // the major third
      {"C7@0", "C5 G4 F4 C4 Bb3 F3", -1},      // leaps
      {"Dm7@0", "E4 G4 A4 B4 D5", -1},         // on another root
      {"C7@0", "F4 F#4 G4 A4 Bb4 C5", -1},     // a half step in another scale
      {"C7@0", "C5 Bb4 G4 F#4 G4", -1},        // a neighbour tone
      {"C7@0", "Eb4 F4 F#4 G4 F4", -1},        // three pitches and the flat fifth
      {"C7b5@0", "C4 Eb4 F4 Gb4 G4 Bb4", -1},  // its own fifth
  }));
  const auto runs = patterns_in(chord, melody).pentatonic_runs;
  REQUIRE(runs.size() == (root < 0 ? 0 : 1));
  if (root >= 0) CHECK(runs[0].root == root);
}

TEST_CASE("where the key is known its own minor pentatonic counts as well as that of the chord") {
  using Keys = std::vector<insideline::KeyChange>;
  const auto [keys, count] = GENERATE(table<Keys, std::size_t>({
      {Keys{}, 0},
      {Keys{{.onset = 0, .key = {}}}, 1},  // C major
      {Keys{{.onset = 0, .key = {.fifths = -3, .minor = true}}}, 1},
      {Keys{{.onset = 0, .key = {.fifths = 1}}}, 0},
      {Keys{{.onset = 0, .key = {}}, {.onset = 1, .key = {.fifths = 1}}}, 1},  // the key where it begins
  }));
  insideline::Solo solo = insideline::tests::solo_from(in_lengths_of("1/2", "C5 Bb4 G4 F4 Eb4 C4"));
  solo.keys = keys;
  const auto runs = analysed(solo, insideline::tests::harmony_from("F7@0", solo)).analysis.patterns.pentatonic_runs;
  REQUIRE(runs.size() == count);
  for (const auto& run : runs) CHECK(run.root == 0);
}

TEST_CASE("with the flat fifth between 4 and 5 it is a run through the blues scale") {
  const auto [melody, first, last, blues] = GENERATE(table<std::string, std::size_t, std::size_t, bool>({
      {"C4 Eb4 F4 Gb4 G4 Bb4", 0, 5, true},
      {"E5 C5 Bb4 G4 Gb4 F4 Eb4 C4", 1, 7, true},
      {"G4 Bb4 G4 F4 Eb4 F4 Gb4 A4", 0, 5, false},     // the flat fifth leads elsewhere
      {"C5 Bb4 G4 F4 Eb4 F4 G4 F#4 G4", 0, 6, false},  // a neighbour tone
      {"C4 Eb4 F4 G4 Bb4", 0, 4, false},
  }));
  const auto runs = patterns_in("C7@0", melody).pentatonic_runs;
  REQUIRE(runs.size() == 1);
  CHECK(runs[0].first == first);
  CHECK(runs[0].last == last);
  CHECK(runs[0].has_blue_fifth == blues);
}

TEST_CASE("the half step that bebop scales add stands off the beat in a run by step") {
  const auto [chord, melody, count] = GENERATE(table<std::string, std::string, std::size_t>({
      {"C7@0", "C5 B4 Bb4 A4 G4 F4", 1},
      {"C6@0", "F4 G4 G#4 A4 B4 C5", 0},  // #5 on the beat
      {"C6@0", "C5 B4 A4 G#4 G4 F4 E4", 1},
      {"Dm7@0", "D4 E4 F4 F#4 G4 A4", 1},
      {"C7@0", "D5 C5 B4 Bb4 A4 G4", 0},    // 7 on the beat
      {"C7@0", "G4 B4 Bb4 A4 G4 F4", 0},    // comes from elsewhere
      {"Cmaj7@0", "C5 B4 A4 G4 F4 E4", 0},  // its own seventh
      {"C7@0", "C5 B4 Bb4 G4 E4 C4", 0},    // no run by step
  }));
  CHECK(patterns_in(chord, melody).added_half_steps.size() == count);
}

TEST_CASE("a note of another chord, or on its way, is not blue") {
  const auto [why, chords, melody, blue] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {"the flat ninth of the chord to come, pushed", "Dm7@0 G7@2", "F4:1 G4:1/2 Ab4:1/2 Ab4~:1 G4:1", ""},
      {"the arpeggio of another chord", "Dm7@0 G7@2", "B4:1/2 D5:1/2 F5:1/2 Ab5:1/2 G5:2", ""},
      {"the tritone substitute", "G7@0", "Ab4:1/2 Db5:1/2 F5:1/2 Ab5:1/2 Cb6:1/2 Ab5:1/2 F5:1/2 Db5:1/2", ""},
      {"the lower half of an enclosure, first", "Cmaj7@0", "r:1/2 D4:1/2 D#4:1/2 F4:1/2 E4:2", ""},
      {"slid up from into the third, on the chord", "F7@0 Bb7@2", "F4:1 Ab4:1/2 Eb4:1/2 Db4:1/2 D4:1/2 F4:1", "3 3 "},
      {"a minor triad on the root", "C7@0", "C4:1/2 Eb4:1/2 G4:1/2 C5:1/2 G4:2", "3 "},
  }));
  INFO(why);
  std::string found;
  for (const auto& note : analysed(chords, melody).analysis.patterns.blue_notes)
    found += std::to_string(note.degree) + ' ';
  CHECK(found == blue);
}

TEST_CASE("a grace note that slides up into the third is a blue third") {
  const auto [chord, melody, count] = GENERATE(table<std::string, std::string, std::size_t>({
      {"Bb7@0", "F4:1 Db4:0 D4:1 F4:2", 1},
      {"Bb7@0", "F4:1 C4:0 D4:1 F4:2", 0},    // from the ninth
      {"Bb7@0", "F4:1 Gb4:0 G4:1 F4:2", 0},   // into another tone
      {"Bbm7@0", "F4:1 C4:0 Db4:1 F4:2", 0},  // its third is minor
  }));
  const auto found = analysed(chord, melody).analysis.patterns.blue_notes;
  REQUIRE(found.size() == count);
  if (count == 1) CHECK(found[0].note == 1);
}
