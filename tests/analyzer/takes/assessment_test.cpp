#include "analyzer/takes/assessment.hpp"

#include "analyzer/takes/another_sheet.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/human_timing.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::assess_take;
using insideline::Assessment;
using insideline::looks_like_another_sheet;
using insideline::Share;
using insideline::Solo;
using insideline::TakeGroup;
using insideline::tests::analysed;
using insideline::tests::AnalysedLine;

namespace {

const char* const chords = "Dm7@0 G7@4 Cmaj7@8 A7@12";
const char* const line =
    "C5:1/2 A4:1/2 F4:1/2 D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 B4:1/2 D5:1/2 F5:1/2 D5:1/2 B4:1/2 G4:1/2 F4:1/2 D4:1/2 "
    "E4:1/2 G4:1/2 B4:1/2 G4:1/2 E4:1/2 C4:1/2 E4:1/2 G4:1/2 G4:1/2 E4:1/2 C#4:1/2 A3:1/2 C#4:1/2 E4:1/2 G4:1/2 A4:1/2";

/// The sheet as played: at a tempo, by fingers that are `jitter_seconds` uneven.
Solo performed(const Solo& sheet, double tempo_bpm, double jitter_seconds) {
  Solo take = sheet;
  insideline::tests::Take manner;
  manner.tempo_bpm = tempo_bpm;
  manner.jitter_seconds = jitter_seconds;
  for (const auto& note : insideline::tests::played(sheet, manner)) {
    insideline::PerformedNote struck;
    struck.onset_seconds = note.onset_seconds;
    struck.duration_seconds = note.end_seconds - note.onset_seconds;
    take.performed.push_back(struck);
  }
  return take;
}

void raise(Solo& take, std::size_t note, const char* pitch) {
  take.notes[note].pitch = insideline::tests::solo_from(std::string(pitch) + ":1").notes[0].pitch;
}

Share share_in(const std::vector<TakeGroup>& groups, const std::string& name) {
  const auto found = std::ranges::find(groups, name, &TakeGroup::name);
  return found == groups.end() ? Share{} : found->right;
}

}  // namespace

TEST_CASE("a sheet's own notes are all right, at any tempo, in whatever way they are grouped") {
  const AnalysedLine sheet = analysed(chords, line);
  for (const double tempo : {60.0, 132.0, 240.0}) {
    const Assessment found = assess_take(sheet.solo, sheet.analysis, performed(sheet.solo, tempo, 0.0));
    CHECK(found.all.right == Share{32, 32});
    CHECK(found.added == 0);
    CHECK(found.restarts == 0);
    CHECK(found.trouble_spots.empty());
    CHECK(share_in(found.by_chord, "G7") == Share{8, 8});
    REQUIRE(found.evenness);
    CHECK(found.evenness->tempo_bpm == Approx(tempo).epsilon(0.01));
    CHECK(found.evenness->spread_ms < 1.0);
  }
}

TEST_CASE("planted mistakes are found, each of its kind and in its place") {
  const AnalysedLine sheet = analysed(chords, line);
  Solo take = performed(sheet.solo, 120.0, 0.015);
  raise(take, 25, "F4");  // A7: wrong
  raise(take, 27, "A4");  // A7: an octave off
  raise(take, 29, "F4");  // A7: wrong
  take.notes.erase(take.notes.begin() + 30);
  take.performed.erase(take.performed.begin() + 30);
  const Assessment found = assess_take(sheet.solo, sheet.analysis, take);
  CHECK(found.all.right == Share{28, 32});
  CHECK(found.all.wrong == 2);
  CHECK(found.all.octave_slips == 1);
  CHECK(found.all.missing == 1);
  CHECK(share_in(found.by_chord, "A7") == Share{4, 8});
  CHECK(share_in(found.by_bar, "bar 4") == Share{4, 8});
  REQUIRE_FALSE(found.trouble_spots.empty());
  CHECK(found.trouble_spots.front().right.count * 2 <= found.trouble_spots.front().right.of);
  REQUIRE(found.evenness);
  CHECK(found.evenness->spread_ms == Approx(15.0).margin(6.0));
}

TEST_CASE("a passage that is begun again counts each time, and is told") {
  const AnalysedLine sheet = analysed(chords, line);
  Solo take = sheet.solo;
  const std::vector<insideline::Note> again(take.notes.begin() + 8, take.notes.begin() + 14);
  take.notes.insert(take.notes.begin() + 14, again.begin(), again.end());
  const Assessment found = assess_take(sheet.solo, sheet.analysis, take);
  CHECK(found.restarts == 1);
  CHECK(found.passes == 1);
  CHECK(found.all.right == Share{38, 38});
}

TEST_CASE("a take twice as long is the sheet played twice, and each time is judged") {
  const AnalysedLine sheet = analysed(chords, line);
  Solo take = sheet.solo;
  take.notes.insert(take.notes.end(), sheet.solo.notes.begin(), sheet.solo.notes.end());
  raise(take, 40, "C4");
  const Assessment found = assess_take(sheet.solo, sheet.analysis, take);
  CHECK(found.passes == 2);
  CHECK(found.restarts == 0);
  REQUIRE(found.by_pass.size() == 2);
  CHECK(found.by_pass[0].right == Share{32, 32});
  CHECK(found.by_pass[1].right == Share{31, 32});
}

TEST_CASE("a take of another sheet is told, with the evidence, and one in another key with the way out") {
  const AnalysedLine sheet = analysed(chords, line);
  const auto verdict = [&](const Solo& take) {
    return looks_like_another_sheet(sheet.solo, take, assess_take(sheet.solo, sheet.analysis, take));
  };
  CHECK_FALSE(verdict(sheet.solo));
  const Solo other = insideline::tests::solo_from(
      "Eb4:1 F#4:1 Ab4:1 Bb4:1 Eb5:1 Db5:1 Bb4:1 Ab4:1 F#4:1 Eb4:1 Db4:1 Bb3:1 Ab4:1 Eb5:1 F#5:1 Ab5:1");
  const auto found = verdict(other);
  REQUIRE(found);
  CHECK(found->right.of == 32);
  CHECK(found->right.count < 8);
  Solo moved = sheet.solo;
  for (auto& note : moved.notes) note.pitch = transposed(note.pitch, {1, 2});
  const auto in_another_key = verdict(moved);
  REQUIRE(in_another_key);
  CHECK(in_another_key->semitones == 2);
  CHECK(in_another_key->right_if_moved == Share{32, 32});
  CHECK(verdict(Solo{}));
}

TEST_CASE("the same notes in another order are another sheet, however many fit by luck; a poor take is not") {
  const AnalysedLine sheet = analysed(chords, line);
  const auto verdict = [&](const Solo& take) {
    return looks_like_another_sheet(sheet.solo, take, assess_take(sheet.solo, sheet.analysis, take));
  };
  Solo backwards = sheet.solo;
  std::ranges::reverse(backwards.notes);
  const std::vector<insideline::Note> again = backwards.notes;
  backwards.notes.insert(backwards.notes.end(), again.begin(), again.end());
  CHECK(verdict(backwards));
  Solo poor = sheet.solo;
  for (std::size_t i = 0; i < poor.notes.size(); i += 5) raise(poor, i, "Eb4");
  for (std::size_t i = 2; i < poor.notes.size(); i += 5) raise(poor, i, "Ab4");
  CHECK_FALSE(verdict(poor));
}
