#include "io/musicxml/score_writer.hpp"

#include "analyzer/analysis.hpp"
#include "analyzer/drills/drill.hpp"
#include "io/changes/changes_file.hpp"
#include "io/musicxml/musicxml.hpp"
#include "tests/support/drilled.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <vector>

using insideline::analyze;
using insideline::Arpeggio;
using insideline::Beats;
using insideline::Connection;
using insideline::Direction;
using insideline::Drill;
using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::Hearing;
using insideline::Settings;
using insideline::Solo;
using insideline::Way;
using insideline::io::parse_musicxml;
using insideline::io::read_changes;
using insideline::io::ReadResult;
using insideline::io::ScorePitch;
using insideline::io::ScoreWriteOptions;
using insideline::io::write_musicxml;
using insideline::tests::drilled;
using insideline::tests::harmony_from;
using insideline::tests::solo_from;

namespace {

std::string sounding_of(const Solo& solo) {
  std::string text;
  for (const auto& note : solo.notes)
    text += to_string(note.pitch) + "@" + to_string(note.onset) + "+" + to_string(note.duration) + " ";
  return text;
}

ScoreWriteOptions with_cues(const Drill& drill) {
  ScoreWriteOptions options;
  for (const auto& choice : drill.open_choices) options.cues.push_back({choice.note, choice.other});
  return options;
}

}  // namespace

TEST_CASE("what is written is read back: notes, ties, triplets, rests, chords and N.C.") {
  const Solo solo = solo_from("F#4:1/2 Gb4:3/2 r:1 C5:1 | A4:1 C5:1/3 D5:1/3 E5:1/3 r:1 B4:1/4 C5:3/4 | r:4");
  const auto harmony = harmony_from("C7(b9)@0 N.C.@2 F#m7b5@5 Bb/D@9", solo);
  const ReadResult read = parse_musicxml(write_musicxml(solo, harmony), "sheet.musicxml");
  CHECK(sounding_of(read.solo) == sounding_of(solo));
  CHECK(read.warnings.empty());
  REQUIRE(read.changes);
  std::string chords;
  for (const auto& span : read.changes->spans)
    chords += (span.chord ? span.chord->symbol : "N.C.") + "@" + to_string(span.onset) + " ";
  // Symbols are written in their plainest spelling.
  CHECK(chords == "C7b9@0 N.C.@2 F#m7b5@5 Bb/D@9 ");
}

TEST_CASE("the letters of the form stand on the sheet, behind double bar lines") {
  const Solo solo = solo_from("C4:4 | D4:4 | E4:4 | F4:4");
  auto harmony = harmony_from("C@0", solo);
  harmony.sections = {{.name = "A", .onset = 0, .duration = 8, .chorus = 1, .first_bar = 1, .last_bar = 2},
                      {.name = "B & \"C\"", .onset = 8, .duration = 8, .chorus = 1, .first_bar = 3, .last_bar = 4}};
  const ReadResult read = parse_musicxml(write_musicxml(solo, harmony), "sheet.musicxml");
  CHECK(read.warnings.empty());
  REQUIRE(read.solo.marks.size() == 2);
  CHECK(read.solo.marks[0].name == "A");
  CHECK(read.solo.marks[0].onset == Beats(0));
  CHECK(read.solo.marks[1].name == "B & \"C\"");
  CHECK(read.solo.marks[1].onset == Beats(8));
  CHECK(read.solo.double_bars == std::vector<Beats>{8});
}

TEST_CASE("a sheet in written pitch sounds the same") {
  Drill drill = drilled(read_changes(std::filesystem::path(INSIDELINE_CORPUS) / "lantern-street.changes"));
  set_instrument(drill.solo, *insideline::instrument_named("tenor-sax"));
  ScoreWriteOptions options = with_cues(drill);
  options.pitch = ScorePitch::written;
  const ReadResult read = parse_musicxml(write_musicxml(drill.solo, drill.harmony, options), "sheet.musicxml");
  CHECK(sounding_of(read.solo) == sounding_of(drill.solo));
  CHECK(read.solo.sounding_minus_written.semitones == -14);
}

TEST_CASE("a sheet read back from its file is what it claims to be") {
  const auto changes = read_changes(std::filesystem::path(INSIDELINE_CORPUS) / "lantern-street.changes");
  Settings strictly;
  strictly.hearing = Hearing::strict;
  DrillSettings settings;
  SECTION("nearest at every change") {
    const Drill drill = drilled(changes, settings);
    CHECK_FALSE(drill.open_choices.empty());
    const ReadResult read =
        parse_musicxml(write_musicxml(drill.solo, drill.harmony, with_cues(drill)), "sheet.musicxml");
    CHECK(sounding_of(read.solo) == sounding_of(drill.solo));
    const auto analysis = analyze(read.solo, drill.harmony, strictly);
    CHECK(analysis.connections.size() == 21);
    for (const Connection& connection : analysis.connections) CHECK(connection.took_nearest == true);
  }
  SECTION("down from the seventh") {
    settings.kind = DrillKind::arpeggios;
    settings.way = Way::down;
    settings.from_tone = 7;
    const Drill drill = drilled(changes, settings);
    const ReadResult read = parse_musicxml(write_musicxml(drill.solo, drill.harmony), "sheet.musicxml");
    const auto analysis = analyze(read.solo, drill.harmony, strictly);
    CHECK(analysis.arpeggios.size() == 23);
    for (const Arpeggio& arpeggio : analysis.arpeggios) {
      CHECK(arpeggio.direction == Direction::descending);
      CHECK(arpeggio.degrees.front().number == 7);
      CHECK(arpeggio.straight_descent);
    }
  }
}
