#include "io/midi/quantize.hpp"

#include "io/midi/midi_writer.hpp"
#include "io/read_solo.hpp"
#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/human_timing.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <random>
#include <string>
#include <vector>

using insideline::Meter;
using insideline::Solo;
using insideline::io::Grid;
using insideline::io::ReadOptions;
using insideline::io::swing_ratio;
using insideline::tests::notes_of;
using insideline::tests::performed_file;
using insideline::tests::read_midi;
using insideline::tests::solo_from;
using insideline::tests::Take;

namespace {

std::string read_back(std::string_view melody, const Take& take, const Meter& meter = {},
                      const ReadOptions& options = {}) {
  return notes_of(read_midi(performed_file(solo_from(melody, meter), take), options).solo);
}

/// Eighths up and down, with rests: what a swing can be heard from.
const std::string eighths =
    "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1/2 C5:1/2 B4:1/2 A4:1/2 G4:1 r:1/2 E4:1/2 D4:1 "
    "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1/2 C5:1/2 ";

struct Returned {
  int right = 0;
  int of = 0;
};

/// How many notes of the demo pieces return to their place over a range of takes, seeded.
Returned returned(double jitter_seconds) {
  Returned tally;
  std::mt19937 engine(11);
  std::uniform_real_distribution<double> tempo(60.0, 280.0);
  std::uniform_real_distribution<double> swing(1.0, 3.0);
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_CORPUS)) {
    if (entry.path().extension() != ".musicxml") continue;
    const Solo solo = insideline::io::read_solo(entry.path()).solo;
    for (unsigned seed = 1; seed <= 8; ++seed) {
      const Take take{tempo(engine), swing(engine), jitter_seconds, 0.0, seed};
      ReadOptions options;
      options.bar_one = insideline::tests::bar_one_in_performed_file(solo);
      const Solo read = read_midi(performed_file(solo, take), options).solo;
      if (read.notes.size() != solo.notes.size()) continue;  // all are then counted as lost
      for (std::size_t i = 0; i < solo.notes.size(); ++i)
        tally.right += read.notes[i].onset == solo.notes[i].onset && read.notes[i].grace == solo.notes[i].grace ? 1 : 0;
      tally.of += static_cast<int>(solo.notes.size());
    }
  }
  return tally;
}

}  // namespace

TEST_CASE("off-beats return to their eighth at every published swing ratio") {
  // Long to short 1.0 to 3.5 is 0.500 to 0.778 of the beat: r/(1+r). Ratios from Friberg & Sundstroem, Music
  // Perception 19(3), 2002, and Corcoran & Frieler, Music Perception 38(4), 2021.
  const double ratio = GENERATE(1.0, 1.3, 1.5, 2.0, 3.0, 3.5);
  const double tempo = GENERATE(80.0, 150.0, 220.0);
  INFO(ratio << " at " << tempo);
  CHECK(read_back(eighths, {tempo, ratio, 0.0, 0.004, 1}) == notes_of(solo_from(eighths)));
}

TEST_CASE("a program that plays swing exactly is read as eighths, and says so") {
  const double ratio = GENERATE(1.5, 2.0, 3.0);
  INFO(ratio);
  const std::string melody = eighths + eighths + eighths;
  const auto read = read_midi(performed_file(solo_from(melody), {120.0, ratio, 0.0, 0.0, 1}));
  CHECK(notes_of(read.solo) == notes_of(solo_from(melody)));
}

TEST_CASE("triplets of a score stay triplets where there are eighths as well") {
  const std::string melody =
      "C4:2/3 D4:1/3 E4:2/3 F4:1/3 G4:2/3 A4:1/3 B4:1/2 C5:1/2 C4:2/3 D4:1/3 E4:2/3 F4:1/3 "
      "G4:2/3 A4:1/3 B4:2/3 C5:1/3 C4:2/3 D4:1/3 C4:3";
  const auto read = read_midi(insideline::io::write_midi(solo_from(melody)));
  CHECK(notes_of(read.solo) == notes_of(solo_from(melody)));
}

TEST_CASE("the swing is estimated from the notes") {
  const auto [ratio, place] =
      GENERATE(table<double, double>({{1.0, 0.500}, {1.3, 0.565}, {1.5, 0.600}, {2.0, 0.667}, {3.0, 0.750}}));
  std::vector<insideline::io::TimedNote> notes;
  const Solo solo = solo_from(eighths);
  for (const auto& note : insideline::tests::played(solo, {140.0, ratio, 0.01, 0.0, 3}))
    notes.push_back({note.onset_seconds, note.end_seconds});
  std::vector<insideline::io::BeatCell> cells;
  for (int beat = -4; beat < 24; ++beat)
    cells.push_back({beat * insideline::io::units_per_quarter, insideline::io::units_per_quarter,
                     insideline::tests::lead_seconds + beat * 60.0 / 140.0, 60.0 / 140.0,
                     insideline::io::BeatKind::simple});
  const auto read = insideline::io::quantized(notes, cells);
  CHECK(read.manner.off_beat == Approx(place).margin(0.02));
  CHECK(swing_ratio(place) == Approx(ratio).margin(0.01));
}

TEST_CASE("triplets and sixteenths are told apart from swung eighths around them") {
  const std::string figure = GENERATE("G4:1/3 A4:1/3 B4:1/3 C5:1 ", "G4:1/4 A4:1/4 B4:1/4 G4:1/4 C5:1 ",
                                      "G4:1/2 A4:1/4 B4:1/4 C5:1 ", "r:1/3 A4:1/3 B4:1/3 C5:1 ");
  const double ratio = GENERATE(1.0, 1.5, 2.0);
  const std::string melody = eighths + figure + "C5:2 " + eighths;
  INFO(figure << " at " << ratio);
  CHECK(read_back(melody, {132.0, ratio, 0.008, 0.0, 2}) == notes_of(solo_from(melody)));
}

TEST_CASE("a grace note is recognised, and so is a push that is played very early") {
  const std::string melody = eighths + "C5:0 D5:1 r:1/2 E5:5/2 " + eighths;
  CHECK(read_back(melody, {120.0, 1.8, 0.008, 0.0, 5}) == notes_of(solo_from(melody)));
}

TEST_CASE("playing behind the beat moves nothing on the page") {
  const double late = GENERATE(-0.03, 0.03, 0.05);
  CHECK(read_back(eighths + eighths, {140.0, 1.6, 0.01, late, 4}) == notes_of(solo_from(eighths + eighths)));
}

TEST_CASE("a waltz and a six-eight are played back to their places") {
  const std::string waltz = "C4:1 D4:1/2 E4:1/2 F4:1/2 G4:1/2 | A4:3/2 G4:1/2 F4:1 | E4:1 D4:1 C4:1 |";
  CHECK(read_back(waltz, {150.0, 1.4, 0.01, 0.0, 1}, {3, 4}) == notes_of(solo_from(waltz, {3, 4})));
  const std::string jig =
      "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 | B4:1 A4:1/2 G4:3/2 | C4:3/2 E4:1/2 F4:1/2 G4:1/2 |";
  CHECK(read_back(jig, {130.0, 1.0, 0.01, 0.0, 1}, {6, 8}) == notes_of(solo_from(jig, {6, 8})));
}

TEST_CASE("a forced grid writes everything in its values") {
  ReadOptions options;
  options.grids = {Grid::eighths};
  const auto read = read_midi(
      performed_file(solo_from("G4:1/3 A4:1/3 B4:1/3 C5:1 D5:1/2 E5:1/2"), {100.0, 1.0, 0.0, 0.0, 1}), options);
  for (const auto& note : read.solo.notes)
    CHECK(remainder_within(note.onset, insideline::Beats(1, 2)) == insideline::Beats(0));
}

TEST_CASE("the performed times stay with the notes") {
  const auto read = read_midi(performed_file(solo_from(eighths), {120.0, 1.5, 0.01, 0.02, 6}));
  REQUIRE(read.solo.performed.size() == read.solo.notes.size());
  CHECK(read.solo.performed[0].quarter_seconds == Approx(0.5));
  CHECK(read.solo.performed[2].onset_beats == Approx(1.0).margin(0.15));
  CHECK(read.solo.performed[2].onset_seconds == Approx(2.0 + 0.5 + 0.02).margin(0.05));  // after one bar of silence
}

TEST_CASE("at least 98 of 100 notes return to their place at 20 ms of jitter, and 92 at 30 ms") {
  const auto [jitter, share] =
      GENERATE(table<double, double>({{0.0, 0.99}, {0.010, 0.99}, {0.020, 0.98}, {0.030, 0.92}}));
  const Returned tally = returned(jitter);
  INFO(tally.right << " of " << tally.of << " at " << jitter << " s");
  REQUIRE(tally.of > 5000);
  CHECK(tally.right >= share * tally.of);
}
