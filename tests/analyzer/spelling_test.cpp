#include "analyzer/spelling.hpp"

#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::Harmony;
using insideline::Key;
using insideline::Solo;
using insideline::spelled_by_harmony;
using insideline::usual_name;
using insideline::tests::harmony_from;
using insideline::tests::solo_from;

namespace {

/// The names that the melody gets once its spelling is forgotten.
std::string respelled(std::string_view melody, std::string_view chords, const Key& key) {
  Solo solo = solo_from(melody);
  solo.keys = {{0, key}};
  for (auto& note : solo.notes) note.spelled = false;
  const Harmony harmony = chords.empty() ? Harmony{} : harmony_from(chords, solo);
  std::string names;
  for (const auto& note : spelled_by_harmony(solo, harmony).notes)
    names += (names.empty() ? "" : " ") + to_string(note.pitch);
  return names;
}

}  // namespace

TEST_CASE("notes without a spelling are named from the chord, then from where they lead, then from the key") {
  const auto [melody, chords, fifths, expected] = GENERATE(table<std::string, std::string, int, std::string>({
      {"Gb4:1 G4:1 A4:1 Bb4:1", "C7@0", 0, "F#4 G4 A4 Bb4"},     // #11 of C7
      {"A#4:1 D4:1 F4:1 A4:1", "Bbmaj7@0", 0, "Bb4 D4 F4 A4"},   // root
      {"C#4:1 F4:1 G#4:1 B4:1", "Bdim7@0", 0, "C#4 F4 Ab4 B4"},  // seventh of Bdim7; C# from the key
      {"D#4:1 E4:1 Eb4:1 D4:1", "Cmaj7@0", 0, "D#4 E4 Eb4 D4"},  // up to E, down to D
      {"G#4:1 A4:1 Ab4:1 G4:1", "Dm7@0", 0, "G#4 A4 Ab4 G4"},
      {"D#4:1 Ab4:1 C#4:1 F#4:1", "", -3, "Eb4 Ab4 Db4 Gb4"},      // E flat major
      {"Eb4:1 Db4:1 Gb4:1 Cb5:1", "", 4, "D#4 C#4 F#4 B4"},        // E major
      {"F4:1 F#4:1 Bb4:1 B4:1", "D7@0", -2, "E#4 F#4 A#4 B4"},     // from half a step below, whatever the key
      {"D4:1 A#3:1 B3:1 G3:1", "G7@0", 1, "D4 Bb3 B3 G3"},         // the blue third
      {"F4:1 G#4:1 A4:1 A#4:1", "Ebmaj7@0", -3, "F4 Ab4 A4 Bb4"},  // a run of half steps
      {"C5:1 A4:1 Gb4:1 Eb4:1", "Gbdim7@0", -1, "C5 A4 Gb4 Eb4"},  // no double flats
      {"C5:1 Cb5:1 Bb4:1 B4:1", "Fm7@0", -4, "C5 Cb5 Bb4 Cb5"},    // down from C in A flat
  }));
  INFO(melody << " over " << chords);
  CHECK(respelled(melody, chords, {fifths, false}) == expected);
}

TEST_CASE("a spelling that the source gave is kept") {
  const Solo solo = solo_from("Gb4:4");
  CHECK(to_string(spelled_by_harmony(solo, harmony_from("C7@0", solo)).notes[0].pitch) == "Gb4");
}

TEST_CASE("the written pitch follows the new name") {
  Solo solo = solo_from("A#3:4");
  solo.sounding_minus_written = {-8, -14};
  solo.notes[0].spelled = false;
  CHECK(to_string(spelled_by_harmony(solo, harmony_from("Bb@0", solo)).notes[0].written) == "C5");
}

TEST_CASE("a minor key has its leading tone") {
  CHECK(to_string(usual_name(11, {-3, true})) == "B");
  CHECK(to_string(usual_name(8, {0, true})) == "G#");
}

TEST_CASE("every pitch class has a name in every key that sounds as it should") {
  for (int fifths = -7; fifths <= 7; ++fifths)
    for (int pitch = 0; pitch < 12; ++pitch) CHECK(pitch_class(usual_name(pitch, {fifths, false})) == pitch);
}
