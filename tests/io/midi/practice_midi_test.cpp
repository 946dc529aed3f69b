#include "io/midi/practice_midi.hpp"

#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/io/midi/second_reader.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using insideline::Beats;
using insideline::io::ChordSound;
using insideline::io::Clicks;
using insideline::io::PracticeMidiOptions;
using insideline::io::swung;
using insideline::io::write_practice_midi;
using insideline::tests::harmony_from;
using insideline::tests::read_by_libsmf;
using insideline::tests::read_midi;
using insideline::tests::solo_from;

namespace {

const char* const melody = "E5:1/2 C5:1/2 Bb4:1 G4:1/2 F4:3/2 | F4:1/2 A4:7/2";

std::string file_with(const PracticeMidiOptions& options) {
  const auto solo = solo_from(melody);
  return write_practice_midi(solo, harmony_from("C7@0 F7@4", solo), options);
}

std::string places_of(std::string_view bytes) {
  std::string text;
  for (const auto& note : read_midi(bytes).solo.notes)
    text += std::to_string(midi_number(note.pitch)) + "@" + to_string(note.onset) + " ";
  return text;
}

/// How many notes begin in a track, as a general reader counts them: 0 is the line.
std::size_t struck_in(std::string_view bytes, std::size_t track) {
  const auto events = read_by_libsmf(bytes).events;
  return static_cast<std::size_t>(std::ranges::count_if(
      events.tracks.at(track), [](const auto& event) { return (event.status & 0xF0U) == 0x90U && event.second > 0; }));
}

}  // namespace

TEST_CASE("the line is what a reader takes for the solo, behind as many bars of clicks as were asked for") {
  const auto [bars, expected] = GENERATE(table<int, std::string>({
      {0, "76@0 72@1/2 70@1 67@2 65@5/2 65@4 69@9/2 "},
      {1, "76@4 72@9/2 70@5 67@6 65@13/2 65@8 69@17/2 "},
      {2, "76@8 72@17/2 70@9 67@10 65@21/2 65@12 69@25/2 "},
      {4, "76@16 72@33/2 70@17 67@18 65@37/2 65@20 69@41/2 "},
  }));
  PracticeMidiOptions options;
  options.count_in_bars = bars;
  CHECK(places_of(file_with(options)) == expected);
}

TEST_CASE("clicks come before the line or throughout") {
  PracticeMidiOptions options;
  CHECK(struck_in(file_with(options), 3) == 4);
  options.clicks = Clicks::throughout;
  CHECK(struck_in(file_with(options), 3) == 12);
  options.count_in_bars = 0;
  CHECK(struck_in(file_with(options), 3) == 8);
  options.clicks = Clicks::before;
  CHECK(read_by_libsmf(file_with(options)).events.tracks.size() == 3);
}

TEST_CASE("the chords are held, comped, or left out; the bass is struck once a chord and bar") {
  PracticeMidiOptions options;
  CHECK(struck_in(file_with(options), 1) == 8);
  CHECK(struck_in(file_with(options), 2) == 2);
  options.chords = ChordSound::comped;
  CHECK(struck_in(file_with(options), 1) == 16);
  CHECK(struck_in(file_with(options), 2) == 2);
  options.chords = ChordSound::none;
  CHECK(read_by_libsmf(file_with(options)).events.tracks.size() == 2);
}

TEST_CASE("every tempo of the ladder has its time through with its own count-in") {
  PracticeMidiOptions options;
  options.tempos_bpm = {60.0, 120.0};
  const auto events = read_by_libsmf(file_with(options)).events;
  REQUIRE(events.tempos.size() == 2);
  CHECK(events.tempos[0].ticks == 0);
  CHECK(events.tempos[0].quarter_microseconds == 1'000'000);
  CHECK(events.tempos[1].ticks == 12U * events.ticks_per_quarter);
  CHECK(events.tempos[1].quarter_microseconds == 500'000);
  CHECK(struck_in(file_with(options), 0) == 14);
  CHECK(struck_in(file_with(options), 3) == 8);
}

TEST_CASE("swung eighths lie where the ratio puts them") {
  PracticeMidiOptions options;
  options.swing_hundredths = 200;
  const std::string bytes = file_with(options);
  const auto events = read_by_libsmf(bytes).events;
  std::vector<unsigned> onsets;
  for (const auto& event : events.tracks.front())
    if ((event.status & 0xF0U) == 0x90U) onsets.push_back(event.ticks);
  CHECK(onsets == std::vector<unsigned>{3840, 4480, 4800, 5760, 6400, 7680, 8320});
}

TEST_CASE("swing moves the half of a beat and leaves thirds alone") {
  CHECK(swung(Beats(3), 200) == Beats(3));
  CHECK(swung(Beats(7, 2), 200) == Beats(11, 3));
  CHECK(swung(Beats(7, 2), 100) == Beats(7, 2));
  CHECK(swung(Beats(7, 2), 300) == Beats(15, 4));
  CHECK(swung(Beats(13, 4), 200) == Beats(10, 3));
  CHECK(swung(Beats(10, 3), 300) == Beats(10, 3));
}
