#include "io/midi/midi_writer.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/spelling.hpp"
#include "io/changes/changes_file.hpp"
#include "io/read_solo.hpp"
#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using insideline::Analysis;
using insideline::Changes;
using insideline::Harmony;
using insideline::Solo;
using insideline::io::write_midi;
using insideline::tests::harmony_from;
using insideline::tests::notes_of;
using insideline::tests::read_midi;
using insideline::tests::solo_from;

namespace {

/// Pitches without their spelling, with all that notation says about their time.
std::string sounding_of(const Solo& solo) {
  std::string text;
  for (const auto& note : solo.notes)
    text += std::to_string(midi_number(note.pitch)) + (note.grace ? "g" : "") + "@" + to_string(note.onset) + "+" +
            to_string(note.duration) + " ";
  return text;
}

std::string labels_of(const Solo& solo, const Harmony& harmony) {
  const Analysis analysis = analyze(solo, harmony);
  std::string text;
  for (const auto& label : analysis.labels)
    text += to_string(label.role) + "/" + to_string(label.figure) + "/" + to_string(label.placement) + "\n";
  return text;
}

}  // namespace

TEST_CASE("what is written is read back: notes, bars, meter, key, tempo, title and chords") {
  Solo solo = solo_from("G4:1/2 A4:1/2 | C5:1/3 D5:1/3 E5:1/3 F5:3/2 G5:1/2 A5:1 | C5:0 B4:4", {}, -1);
  solo.title = "Quay Steps";
  solo.part = "Horn";
  solo.tempo_bpm = 150.0;
  solo.keys = {{solo.bars.front().onset, {-3, true}}};
  const Harmony harmony = harmony_from("Dm7@1 G7@3 C@5", solo);
  const auto read = read_midi(write_midi(solo, harmony));
  CHECK(notes_of(read.solo) == notes_of(solo));
  CHECK(read.solo.title == "Quay Steps");
  CHECK(read.solo.part == "Horn");
  CHECK(read.solo.tempo_bpm == Approx(150.0));
  CHECK(read.solo.bars.size() == solo.bars.size());
  CHECK(read.solo.bars.front().number == 0);
  CHECK(read.solo.keys.at(0).key == insideline::Key{-3, true});
  REQUIRE(read.changes);
  REQUIRE(read.changes->spans.size() == 3);
  CHECK(read.changes->spans[1].chord->symbol == "G7");
  CHECK(read.changes->spans[1].onset == harmony.chords[1].onset);
  CHECK(read.warnings.empty());
}

TEST_CASE("a transposing part may be written at its written pitch") {
  Solo solo = solo_from("C4:4");
  solo.sounding_minus_written = {-8, -14};
  solo.notes[0].written = *insideline::parse_pitch("D5");
  CHECK(notes_of(read_midi(write_midi(solo, {}, {.pitch = insideline::io::MidiPitch::written})).solo) == "D5@0+4");
  CHECK(notes_of(read_midi(write_midi(solo)).solo) == "C4@0+4");
}

TEST_CASE("a gap in the harmony is written as N.C.") {
  const Solo solo = solo_from("C4:4");
  const auto read = read_midi(write_midi(solo, harmony_from("C@0 N.C.@2 G7@3", solo)));
  REQUIRE(read.changes->spans.size() == 3);
  CHECK_FALSE(read.changes->spans[1].chord);
}

TEST_CASE("every demo piece comes back from MIDI with the same notes, bars and labels") {
  int pieces = 0;
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_CORPUS)) {
    if (entry.path().extension() != ".musicxml") continue;
    INFO(entry.path().filename());
    const auto score = insideline::io::read_solo(entry.path());
    const std::filesystem::path chart = std::filesystem::path(entry.path()).replace_extension(".changes");
    const Changes changes = score.changes ? *score.changes : insideline::io::read_changes(chart);
    const Harmony harmony = lay_out(changes, score.solo);
    const auto read = read_midi(write_midi(score.solo, harmony));
    CHECK(sounding_of(read.solo) == sounding_of(score.solo));
    CHECK(read.solo.bars.size() == score.solo.bars.size());
    CHECK(read.solo.performed.empty());
    REQUIRE(read.changes);
    const Harmony read_harmony = lay_out(*read.changes, read.solo);
    // A score can spell three semitones as a step, as in D Cb Bb; a MIDI file spells nothing.
    Solo unspelled = score.solo;
    for (auto& note : unspelled.notes) note.spelled = false;
    CHECK(labels_of(spelled_by_harmony(read.solo, read_harmony), read_harmony) ==
          labels_of(spelled_by_harmony(unspelled, harmony), harmony));
    ++pieces;
  }
  CHECK(pieces >= 10);
}
