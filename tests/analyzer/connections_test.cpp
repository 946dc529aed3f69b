#include "analyzer/connections.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Connection;
using insideline::nearest_tones;
using insideline::parse_chord_symbol;
using insideline::parse_pitch;
using insideline::tests::analysed;

namespace {

std::string described(const Connection& connection) {
  std::string text = connection.from_degree ? to_string(*connection.from_degree) : "-";
  text += " to " + (connection.to_degree ? to_string(*connection.to_degree) : "-") + ", " + to_string(connection.kind);
  if (connection.semitones) text += ' ' + std::to_string(*connection.semitones);
  if (connection.guide_tone) text += ", guide tone";
  if (connection.took_nearest) text += *connection.took_nearest ? ", nearest" : ", not nearest";
  return text;
}

std::string only_connection(const std::string& chords, const std::string& melody) {
  const auto connections = analysed(chords, melody).analysis.connections;
  REQUIRE(connections.size() == 1);
  return described(connections.front());
}

}  // namespace

// Leaving G7 on its seventh for C7, and C7 on its root for G7: common practice, no source.
TEST_CASE("the nearest tones of the next chord lie above and below the note that is left") {
  const auto [note, chord, up, down, common] =
      GENERATE(table<std::string, std::string, std::string, std::string, bool>({
          {"F4", "C7", "G4", "E4", false},
          {"C5", "G7", "D5", "B4", false},
          {"D4", "C", "E4", "C4", false},     // equally near
          {"C4", "Cmaj7", "E4", "B3", true},  // a common tone; the others lie around it
          {"E4", "C", "G4", "C4", true},
          {"B3", "Ebm7", "Db4", "Bb3", false},
          {"F#5", "B7", "A5", "D#5", true},
          {"C4", "F#7", "C#4", "A#3", false},
          {"C4", "C5", "G4", "G3", true},
          {"Cb4", "Abm7", "Eb4", "Ab3", true},
      }));
  const auto nearest = nearest_tones(midi_number(parse_pitch(note).value()), parse_chord_symbol(chord).value().value());
  REQUIRE(nearest.up);
  REQUIRE(nearest.down);
  CHECK(to_string(*nearest.up) == up);
  CHECK(to_string(*nearest.down) == down);
  CHECK(nearest.common == common);
}

TEST_CASE("a connection goes from the last note over the old chord to the first over the new") {
  const auto [chords, melody, expected] = GENERATE(table<std::string, std::string, std::string>({
      {"G7@0 C7@4", "G4:2 F4:2 E4:4", "b7 to 3, half step -1, guide tone, nearest"},
      {"G7@0 C7@4", "G4:2 F4:2 G4:4", "b7 to 5, whole step 2, not nearest"},
      {"C7@0 G7@4", "E4:2 C5:2 B4:4", "1 to 3, half step -1, nearest"},
      {"C7@0 G7@4", "E4:2 C5:2 D5:4", "1 to 5, whole step 2, not nearest"},
      {"Dm7@0 G7@4", "A4:2 F4:2 F4:4", "b3 to b7, common tone 0, guide tone, nearest"},
      {"Am@0 C@4", "C4:2 A4:2 G4:4", "1 to 5, whole step -2, nearest"},
      {"Gm@0 C@4", "Bb4:2 D4:2 E4:4", "5 to 3, whole step 2, nearest"},  // C and E are equally near
      {"Gm@0 C@4", "Bb4:2 D4:2 C4:4", "5 to 1, whole step -2, nearest"},
      {"C@0 F@4", "C4:2 E4:2 G4:2 A4:2", "3 to 9, third 3, not nearest"},
      {"C@0 Ab@4", "C4:2 G4:2 C5:4", "5 to 3, leap 5, not nearest"},
  }));
  CHECK(only_connection(chords, melody) == expected);
}

TEST_CASE("a rest of a beat or more, or no note on one side, connects nothing") {
  CHECK(only_connection("G7@0 C7@4", "G4:2 F4:1 r:1 E4:4") == "b7 to 3, none");
  CHECK(only_connection("G7@0 C7@4", "G4:2 F4:3/2 r:1/2 E4:4") == "b7 to 3, half step -1, guide tone, nearest");
  CHECK(only_connection("G7@0 C7@4", "G4:2 B4:2 r:4") == "3 to -, none");
  const auto line = analysed("C@0 F@2 G7@4", "C4:1 E4:1 r:2 B4:4");
  REQUIRE(line.analysis.connections.size() == 2);
  CHECK(described(line.analysis.connections[0]) == "3 to -, none");
  CHECK(described(line.analysis.connections[1]) == "- to 3, none");
  CHECK(to_string(line.analysis.connections[0].nearest_up.value()) == "F4");
  CHECK_FALSE(line.analysis.connections[1].nearest_up);
}

TEST_CASE("the same chord written again is no change, and no chord between two is none either") {
  CHECK(analysed("C7@0 C7@4 C7@8", "E4:4 G4:4 Bb4:4").analysis.connections.empty());
  CHECK(analysed("C7@0 N.C.@4 F7@8", "E4:4 G4:4 A4:4").analysis.connections.empty());
  const auto line = analysed("C7@0 C7@4 F7@8", "E4:4 Bb4:4 A4:4");
  REQUIRE(line.analysis.connections.size() == 1);
  CHECK(line.analysis.connections.front().from_chord == 1);
  CHECK(line.analysis.connections.front().to_chord == 2);
}

TEST_CASE("a note pushed ahead of its chord is the first of the new chord") {
  const auto line = analysed("Dm7@0 G7@4", "D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 F4:1/2 C5:1/2 B4:1/2 B4~:1 D5:1 F5:2");
  REQUIRE(line.analysis.connections.size() == 1);
  CHECK(line.analysis.connections.front().to_note == 7);
  CHECK(described(line.analysis.connections.front()) == "b7 to 3, half step -1, guide tone, nearest");
}

TEST_CASE("fourth and sixth stand for third and seventh in sus and sixth chords") {
  const auto [chords, melody, guide] = GENERATE(table<std::string, std::string, bool>({
      {"Dm7@0 G7sus4@4", "D4:2 C5:2 C5:4", true},   // 7 to 4
      {"G7sus4@0 C6@4", "G4:2 C5:2 A4:4", false},   // 4 to 6, but by a third
      {"G7@0 C6@4", "D4:2 B4:2 A4:4", true},        // 3 to 6
      {"C6@0 F@4", "C4:2 A4:2 A4:4", true},         // 6 to 3
      {"C@0 F@4", "C4:2 G4:2 A4:4", false},         // a triad has no seventh to give
      {"Cmaj7@0 Fm7@4", "C4:2 B4:2 Ab4:4", false},  // 7 to b3 is a third
  }));
  CHECK(analysed(chords, melody).analysis.connections.front().guide_tone == guide);
}

TEST_CASE("a guide tone falls or stays; a seventh or a major third that rises is on its way elsewhere") {
  const auto [chords, melody, guide] = GENERATE(table<std::string, std::string, bool>({
      {"C7@0 G7@4", "C5:2 A#4:2 B4:4", false},
      {"Ebmaj7@0 Cm7@4", "G4:2 D5:2 Eb5:4", false},
      {"F7@0 C7@4", "C5:2 A4:2 Bb4:4", false},
      {"Cm7@0 Fmaj7@4", "C5:2 Eb4:2 E4:4", true},  // only to a major seventh
  }));
  CHECK(analysed(chords, melody).analysis.connections.front().guide_tone == guide);
}

namespace {

std::string late(const std::string& chords, const std::string& melody) {
  const auto connections = analysed(chords, melody).analysis.connections;
  REQUIRE(connections.size() == 1);
  const auto& found = connections.front().late;
  if (!found) return "";
  return to_string(found->from_degree) + " to " + to_string(found->to_degree) + ", note " +
         std::to_string(found->from_note) + " to " + std::to_string(found->to_note);
}

}  // namespace

TEST_CASE("a guide tone may be led home late, by way of other notes") {
  const auto [why, chords, melody, expected] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {"4 3, enclosed", "Dm7@0 G7@4", "D5:2 F5:2 C6:1/2 A5:1/2 A#5:1/2 B5:5/2", "b7 to 3, note 2 to 5"},
      {"the target of an enclosure", "G7@0 Cmaj7@4", "D5:2 B4:2 F5:1/2 D#5:1/2 E5:3", "b7 to 3, note 2 to 4"},
      {"an approach from below", "Dm7@0 G7@4", "A4:2 C5:2 A#4:1/2 B4:7/2", "b7 to 3, note 1 to 3"},
      {"a third that falls late to the seventh", "G7@0 Cm7@4", "D5:2 B4:2 A4:1/2 Bb4:7/2", "3 to b7, note 1 to 3"},
      {"a tone first, within the beat", "G7@0 C@4", "G4:2 F4:2 C4:1/2 E4:1/2 G4:3", "b7 to 3, note 1 to 3"},
      {"a tone first, on the next beat", "G7@0 C@4", "G4:2 F4:2 C4:1 E4:1 G4:2", ""},
      {"later than two beats", "G7@0 C@4", "G4:2 F4:2 D4:5/2 E4:3/2", ""},
      {"not the last note over the old chord", "G7@0 C@4", "F4:2 G4:2 D4:1/2 E4:7/2", ""},
      {"a seventh that rises", "C7@0 G7@4", "C5:2 Bb4:2 C5:1/2 B4:7/2", ""},
      {"at once is not late", "G7@0 C@4", "G4:2 F4:2 E4:4", ""},
      {"after a rest", "G7@0 C@4", "G4:2 F4:2 D4:1/2 r:1 E4:5/2", ""},
  }));
  INFO(why);
  CHECK(late(chords, melody) == expected);
}

TEST_CASE("late resolutions are counted among those led home, and apart") {
  const auto summary = analysed("Dm7@0 G7@4 C@8", "A4:2 C5:2 A#4:1/2 B4:3/2 F4:2 E4:4").analysis.summary;
  CHECK(summary.guide_tone_resolutions == insideline::Share{2, 2});
  CHECK(summary.guide_tones_late == 1);
  CHECK(summary.guide_tones_kept == 0);
}
