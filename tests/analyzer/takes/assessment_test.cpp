#include "analyzer/takes/assessment.hpp"

#include "analyzer/takes/another_sheet.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/human_timing.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <random>
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

TEST_CASE("grace notes of the sheet may be played or left out, and are never added notes") {
  const AnalysedLine sheet =
      analysed("C@0", "E4:1 D4:0 C4:1 C4:0 E4:1 G4:1 | F4:0 F#4:0 G4:1 E4:1 C4:1 B3:0 C4:1 | D4:0 E4:4");
  const auto [played, added] = GENERATE(table<const char*, int>({
      {"E4:1 C4:1 E4:1 G4:1 G4:1 E4:1 C4:1 C4:1 E4:4", 0},
      {"E4:1 D4:1/2 C4:1/2 C4:1/2 E4:1/2 G4:1 F4:1/2 F#4:1/4 G4:1/4 E4:1 C4:1 B3:1/2 C4:1/2 D4:1 E4:3", 0},
      {"E4:1 D4:1/2 C4:1/2 E4:1 G4:1 F#4:1/2 G4:1/2 E4:1 C4:1 C4:1 E4:4", 0},
      {"E4:1 D4:1/4 D4:1/4 C4:1/2 E4:1 G4:1 G4:1 E4:1 C4:1 C4:1 E4:4", 1},  // the same one twice
      {"E4:1 C4:1 E4:1 Bb4:1/2 G4:1/2 G4:1 E4:1 C4:1 C4:1 E4:4", 1},        // no such grace note
      {"E4:1 C4:1 E4:1 G4:1 D4:1/2 G4:1/2 E4:1 C4:1 C4:1 E4:4", 1},         // one of another place
  }));
  CAPTURE(played);
  const Solo take = performed(insideline::tests::solo_from(played), 120.0, 0.0);
  const Assessment found = assess_take(sheet.solo, sheet.analysis, take);
  CHECK(found.all.right == Share{9, 9});
  CHECK(found.added == added);
}

TEST_CASE("a bar that goes wrong in each section of a name is one pattern, said as the form has it") {
  const std::string a = "C5:1 E5:1 G5:1 E5:1 | D5:1 F5:1 A5:1 F5:1 | ";
  const std::string b = "B4:1 D5:1 F5:1 D5:1 | G4:1 B4:1 D5:1 B4:1 | ";
  AnalysedLine sheet = analysed("C@0 Dm7@4 C@8 Dm7@12 G7@16 G7@20 C@24 Dm7@28", a + a + b + a);
  const auto section = [](const char* name, int first) {
    return insideline::SoundingSection{
        .name = name, .onset = 4 * (first - 1), .duration = 8, .chorus = 1, .first_bar = first, .last_bar = first + 1};
  };
  sheet.analysis.harmony.sections = {section("A", 1), section("A", 3), section("B", 5), section("A", 7)};
  Solo take = performed(sheet.solo, 120.0, 0.0);
  for (const std::size_t note : {4U, 6U, 12U, 14U, 28U, 30U}) raise(take, note, "C#5");
  const Assessment found = assess_take(sheet.solo, sheet.analysis, take);
  CHECK(share_in(found.by_form_bar, "bar 1 of each A") == Share{12, 12});
  CHECK(share_in(found.by_form_bar, "bar 2 of each A") == Share{6, 12});
  CHECK(share_in(found.by_form_bar, "bar 1 of each B") == Share{});
  REQUIRE_FALSE(found.trouble_spots.empty());
  CHECK(
      std::ranges::any_of(found.trouble_spots, [](const TakeGroup& group) { return group.name == "bar 2 of each A"; }));
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
  CHECK(share_in(found.by_place, "as the chord changes") == Share{3, 3});
  CHECK(share_in(found.by_place, "inside the chord") == Share{25, 29});
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

namespace {

/// A line that wanders, of so many eighths: the same for the same seed.
Solo wandering(unsigned seed, int notes) {
  std::mt19937 engine(seed);
  Solo solo;
  int pitch = 60;
  for (int i = 0; i < notes; ++i) {
    pitch += static_cast<int>(engine() % 9U) - 4 + (pitch < 50 ? 5 : 0) - (pitch > 80 ? 5 : 0);
    insideline::Note note;
    note.onset = insideline::Beats(i, 2);
    note.duration = insideline::Beats(1, 2);
    note.pitch = note.written =
        transposed(insideline::Pitch{}, insideline::usual_interval(pitch - midi_number(insideline::Pitch{})));
    solo.notes.push_back(note);
  }
  return solo;
}

}  // namespace

TEST_CASE(
    "a long take of another piece is known from parts of it; of the same piece, moved or played badly, it is not") {
  const Solo sheet = wandering(1, 500);
  const auto found = insideline::is_clearly_another_sheet(sheet, wandering(2, 8'000));
  REQUIRE(found);
  CHECK(found->from_stretches);
  CHECK(found->right.of == 500);
  CHECK(found->right.count < 350);
  Solo sixteen_times = sheet;
  for (int more = 0; more < 15; ++more)
    sixteen_times.notes.insert(sixteen_times.notes.end(), sheet.notes.begin(), sheet.notes.end());
  CHECK_FALSE(insideline::is_clearly_another_sheet(sheet, sixteen_times));
  Solo moved = sixteen_times;
  for (auto& note : moved.notes) note.pitch = transposed(note.pitch, {1, 2});
  CHECK_FALSE(insideline::is_clearly_another_sheet(sheet, moved));
  Solo poor = sixteen_times;
  for (std::size_t i = 0; i < poor.notes.size(); i += 6) raise(poor, i, "Eb4");
  CHECK_FALSE(insideline::is_clearly_another_sheet(sheet, poor));
  Solo only_its_end = wandering(2, 8'000);  // four stretches of something else
  std::copy(sheet.notes.end() - 400, sheet.notes.end(), only_its_end.notes.end() - 400);
  CHECK_FALSE(insideline::is_clearly_another_sheet(sheet, only_its_end));
}

TEST_CASE("a short take is laid as a whole before anything is said of it") {
  CHECK_FALSE(insideline::is_clearly_another_sheet(wandering(1, 600), wandering(2, 600)));
}
