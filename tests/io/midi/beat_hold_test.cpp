#include "io/midi/beat_hold.hpp"

#include "io/read_solo.hpp"
#include "tests/io/midi/generated_takes.hpp"
#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/support/folders.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

using insideline::io::BeatCell;
using insideline::io::BeatKind;
using insideline::io::keeps_to_beats;
using insideline::io::units_per_quarter;
using insideline::tests::GeneratedTake;
using insideline::tests::performed_file;
using insideline::tests::read_midi;
using insideline::tests::solo_from;
using insideline::tests::take_of_a_page;
using insideline::tests::take_written_literally;

namespace {

std::vector<BeatCell> click_at_120() {
  constexpr double beat_seconds = 0.5;
  std::vector<BeatCell> cells;
  for (int beat = 0; beat < 2000; ++beat)
    cells.push_back({std::int64_t{beat} * units_per_quarter, units_per_quarter, beat * beat_seconds, beat_seconds,
                     BeatKind::simple});
  return cells;
}

/// 60, 97, 134 ... up to 299 beats a minute.
double tempo_of(unsigned seed) { return 60.0 + seed * 37 % 240; }

const std::string sixteen_bars_of_eighths = [] {
  std::string melody;
  for (int bar = 0; bar < 16; ++bar) melody += "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1/2 C5:1/2 ";
  return melody;
}();

}  // namespace

TEST_CASE("takes that were played to their beats are not called free, however late and however much they swing") {
  int called_free = 0;
  for (unsigned seed = 1; seed <= 150; ++seed) {
    const GeneratedTake page = take_of_a_page(tempo_of(seed), seed);
    const GeneratedTake literal = take_written_literally(tempo_of(seed), seed);
    called_free += keeps_to_beats(page.notes, page.cells) ? 0 : 1;
    called_free += keeps_to_beats(literal.notes, literal.cells) ? 0 : 1;
  }
  CHECK(called_free <= 1);
}

TEST_CASE("no demo piece that is played by human hands, at any swing and tempo, is called free") {
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_CORPUS)) {
    if (entry.path().extension() != ".musicxml") continue;
    const auto solo = insideline::io::read_solo(entry.path()).solo;
    for (unsigned seed = 1; seed <= 4; ++seed) {
      const insideline::tests::Take take{tempo_of(seed * 7), 1.0 + 0.5 * seed, 0.03, 0.04, seed};
      INFO(entry.path().filename() << " at " << take.tempo_bpm);
      CHECK(read_midi(performed_file(solo, take)).keeps_to_beats);
    }
  }
}

TEST_CASE("of takes that know nothing of the click of their file nine in ten are told") {
  int told = 0;
  const std::vector<BeatCell> click = click_at_120();
  for (unsigned seed = 1; seed <= 100; ++seed)
    told += keeps_to_beats(take_of_a_page(tempo_of(seed), seed).notes, click) ? 0 : 1;
  CHECK(told >= 90);
}

TEST_CASE("a short line is too little to tell") {
  const GeneratedTake take = take_of_a_page(93.0, 1);
  CHECK_FALSE(keeps_to_beats(take.notes, click_at_120()));
  CHECK(keeps_to_beats(std::span(take.notes).first(60), click_at_120()));
}

TEST_CASE("a file that was played to its own beats keeps to them, and one at another tempo does not") {
  auto solo = solo_from(sixteen_bars_of_eighths);
  const insideline::tests::Take take{.tempo_bpm = 120.0, .jitter_seconds = 0.02, .late_seconds = 0.03};
  CHECK(read_midi(performed_file(solo, take)).keeps_to_beats);
  for (insideline::Note& note : solo.notes) note.onset = note.onset * insideline::Beats(129, 100);  // played at 93
  CHECK_FALSE(read_midi(performed_file(solo, take)).keeps_to_beats);
}
