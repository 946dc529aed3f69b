#include "io/midi/midi_writer.hpp"
#include "io/midi/quantize.hpp"
#include "tests/io/midi/generated_takes.hpp"
#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/support/melody.hpp"

#include <fmt/format.h>
#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <string>
#include <vector>

using insideline::Beats;
using insideline::io::BeatCell;
using insideline::io::quantized;
using insideline::io::units_per_quarter;
using insideline::tests::GeneratedTake;
using insideline::tests::notes_of;
using insideline::tests::performed_file;
using insideline::tests::read_midi;
using insideline::tests::solo_from;
using insideline::tests::Take;
using insideline::tests::WithinASixth;

namespace {

GeneratedTake any_take() {
  const auto tempo = *rc::gen::inRange(60, 300);
  const auto seed = *rc::gen::inRange(0U, 1'000'000U);
  return *rc::gen::arbitrary<bool>() ? insideline::tests::take_of_a_page(tempo, seed)
                                     : insideline::tests::take_written_literally(tempo, seed);
}

double played_in_beats(const GeneratedTake& take, std::size_t note) {
  const double seconds = take.notes[note].onset_seconds;
  const BeatCell& cell = take.cells[insideline::io::cell_at(take.cells, seconds, 0)];
  return static_cast<double>(cell.onset) / units_per_quarter + (seconds - cell.onset_seconds) / cell.length_seconds;
}

/// A page of beats that divide in 1 to 8 and in 10, more plain ones than others, as melody shorthand.
std::string any_exact_melody() {
  constexpr std::array plain = {1, 2, 3, 4};
  constexpr std::array fine = {5, 6, 7, 8, 10};
  std::string melody;
  const auto beats = *rc::gen::inRange(12, 60);
  for (int beat = 0; beat < beats; ++beat) {
    const bool is_plain = beat < 4 || *rc::gen::inRange(0, 3) > 0;
    const int parts = is_plain ? *rc::gen::elementOf(plain) : *rc::gen::elementOf(fine);
    for (int part = 0; part < parts; ++part) melody += fmt::format("{}:1/{} ", part % 2 == 0 ? "C5" : "D5", parts);
  }
  return melody;
}

Take any_human_take() {
  const auto tempo = *rc::gen::inRange(60, 240);
  const auto swing = *rc::gen::inRange(100, 220);
  const auto jitter = *rc::gen::inRange(5, 20);
  const auto late = *rc::gen::inRange(-5, 30);
  return {1.0 * tempo, swing / 100.0, jitter / 1000.0, late / 1000.0, *rc::gen::inRange(1U, 1'000'000U)};
}

const std::string mixed_line =
    "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/3 A4:1/3 B4:1/3 C5:1/2 B4:1/2 A4:1/2 G4:1 r:1/2 E4:1/2 D4:1 "
    "C4:1/2 D4:1/2 E4:1/4 F4:1/4 G4:1/4 A4:1/4 B4:1/2 C5:1/2 r:1 G4:1/2 E4:1/2 C4:2 ";

}  // namespace

TEST_CASE("notes keep their order on the page, and only a grace note shares a place") {
  CHECK(rc::check([] {
    const GeneratedTake take = any_take();
    const auto read = quantized(take.notes, take.cells);
    RC_ASSERT(read.notes.size() == take.notes.size());
    for (std::size_t i = 0; i + 1 < read.notes.size(); ++i) {
      RC_ASSERT(read.notes[i].onset <= read.notes[i + 1].onset);
      RC_ASSERT(read.notes[i].grace || read.notes[i].onset < read.notes[i + 1].onset);
      RC_ASSERT(read.notes[i].grace == (read.notes[i].duration == 0));
    }
  }));
}

TEST_CASE("nothing is moved by a sixteenth, an off-beat by no more than that and its swing") {
  CHECK(rc::check([] {
    const GeneratedTake take = any_take();
    const auto read = quantized(take.notes, take.cells);
    const double swing = std::abs(read.manner.off_beat - 0.5);
    for (std::size_t i = 0; i < read.notes.size(); ++i) {
      if (read.notes[i].grace) continue;
      const std::int64_t within = read.notes[i].onset % units_per_quarter;
      const bool may_swing = within * 4 % units_per_quarter == 0 && within != 0;
      const double moved = static_cast<double>(read.notes[i].onset) / units_per_quarter - played_in_beats(take, i);
      constexpr double a_sixteenth = 0.2501;
      RC_ASSERT(std::abs(moved) < a_sixteenth + (may_swing ? swing : 0.0));
    }
  }));
}

TEST_CASE("a line played some bars later is written the same, some bars later") {
  CHECK(rc::check([] {
    const GeneratedTake take = any_take();
    const auto bars = *rc::gen::inRange(1, 5);
    const double bar_seconds = 2.0;
    std::vector<BeatCell> cells;
    for (int beat = 0; beat < 4 * bars; ++beat)
      cells.push_back({beat * units_per_quarter, units_per_quarter, beat * bar_seconds / 4, bar_seconds / 4,
                       insideline::io::BeatKind::simple});
    const double shift = bars * bar_seconds - take.cells.front().onset_seconds;
    for (BeatCell cell : take.cells) {
      cell.onset += 4 * bars * units_per_quarter;
      cell.onset_seconds += shift;
      cells.push_back(cell);
    }
    auto notes = take.notes;
    for (auto& note : notes) {
      note.onset_seconds += shift;
      note.end_seconds += shift;
    }
    const auto first = quantized(take.notes, take.cells);
    const auto later = quantized(notes, cells);
    for (std::size_t i = 0; i < notes.size(); ++i) {
      RC_ASSERT(later.notes[i].onset == first.notes[i].onset + 4 * bars * units_per_quarter);
      RC_ASSERT(later.notes[i].grace == first.notes[i].grace);
    }
  }));
}

TEST_CASE("what stands on the grid of its file stays there, on eight, ten, five and seven to the beat as well") {
  CHECK(rc::check([] {
    const std::string melody = any_exact_melody();
    const auto read = read_midi(insideline::io::write_midi(solo_from(melody)));
    RC_ASSERT(notes_of(read.solo) == notes_of(solo_from(melody)));
    RC_ASSERT(read.solo.performed.empty());
  }));
}

TEST_CASE("elevens and thirteens in a file on the grid stay what they are") {
  const int parts = GENERATE(11, 13, 14, 15);
  std::string melody =
      "C4:1/2 D4:1/2 E4:1 F4:1/2 G4:1/2 A4:1/3 B4:1/3 C5:1/3 B4:1 A4:1/2 G4:1/2 C4:1/2 D4:1/2 "
      "E4:1 F4:1/2 G4:1/2 A4:1/3 B4:1/3 C5:1/3 B4:1 A4:1/2 G4:1/2 C4:1/2 D4:1/2 E4:1 F4:1/2 G4:1/2 "
      "A4:1/3 B4:1/3 C5:1/3 B4:1 A4:1/2 G4:1/2 C4:1/2 D4:1/2 E4:1 F4:1/2 G4:1/2 A4:1 B4:1 C5:1 B4:1 ";
  melody += melody;
  for (int part = 0; part < parts; ++part) melody += fmt::format("{}:1/{} ", part % 2 == 0 ? "C5" : "D5", parts);
  melody += "C5:1";
  CHECK(notes_of(read_midi(insideline::io::write_midi(solo_from(melody))).solo) == notes_of(solo_from(melody)));
}

TEST_CASE("what was written down, saved and read again is the same") {
  CHECK(rc::check([] {
    const auto once = read_midi(performed_file(solo_from(mixed_line + mixed_line), any_human_take())).solo;
    const auto again = read_midi(insideline::io::write_midi(once)).solo;
    RC_ASSERT(notes_of(again) == notes_of(once));
  }));
}

TEST_CASE("figures keep their shape when a player lies a tenth of a beat behind") {
  const std::string figure = GENERATE("r:1/3 A4:1/3 B4:1/3 ", "A4:1/4 B4:1/2 C5:1/4 ", "A4:1/2 B4:1/4 C5:1/4 ",
                                      "A4:1/4 B4:1/4 C5:1/4 D5:1/4 ", "A4:1/2 B4:1/2 ", "A4:1/3 B4:1/3 C5:1/3 ");
  const double tempo = GENERATE(100.0, 140.0);
  const std::string plain_line =
      "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1/2 C5:1/2 B4:1/2 A4:1/2 G4:1/2 F4:1/2 E4:1/2 D4:1/2 C4:1 ";
  const std::string melody = plain_line + figure + "G4:1/2 F4:1/2 " + figure + "G4:1 " + plain_line;
  INFO(figure << " at " << tempo);
  CHECK(notes_of(read_midi(performed_file(solo_from(melody), {tempo, 1.4, 0.006, 0.1 * 60.0 / tempo, 3})).solo) ==
        notes_of(solo_from(melody)));
}

TEST_CASE("at least 95 of 100 notes stand within a sixth of a beat of where they are written, however they were made") {
  constexpr int takes_at_each_tempo = 3;
  const bool from_page = GENERATE(true, false);
  WithinASixth all;
  for (unsigned tempo = 60; tempo <= 300; tempo += 20)
    for (unsigned seed = 1; seed <= takes_at_each_tempo; ++seed)
      all += within_a_sixth(from_page ? insideline::tests::take_of_a_page(tempo, 100 * tempo + seed)
                                      : insideline::tests::take_written_literally(tempo, 100 * tempo + seed));
  INFO(all.program << " of " << all.notes << "; raw " << all.raw << ", less the median lateness " << all.raw_less_median
                   << ", in twelfths " << all.twelfths);
  REQUIRE(all.notes > 8000);
  CHECK(100 * all.program >= 95 * all.notes);
}
