#include "cli/recording_options.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::Beats;
using insideline::Note;
using insideline::Solo;
using insideline::cli::from_sound;
using insideline::cli::SoloBytes;
using Places = std::vector<std::string>;

namespace {

/// Quarters, four to the bar, from this bar on.
Solo quarters(std::size_t count, int first_bar) {
  Solo solo;
  for (std::size_t i = 0; i < count; ++i) {
    const auto beat = static_cast<int>(i);
    if (beat % 4 == 0)
      solo.bars.push_back({.number = first_bar + beat / 4, .onset = Beats(beat), .length = Beats(4), .meter = {}});
    Note note;
    note.onset = Beats(beat);
    note.place.bar = std::to_string(first_bar + beat / 4);
    solo.notes.push_back(note);
  }
  return solo;
}

/// As if these had been heard, a second apart, and some of them hardly.
SoloBytes heard(const std::vector<int>& midi, const std::vector<std::size_t>& hardly, bool has_beats) {
  SoloBytes bytes;
  bytes.heard.emplace().has_beats = has_beats;
  for (std::size_t i = 0; i < midi.size(); ++i) {
    const auto second = static_cast<double>(i);
    bytes.heard->line.notes.push_back({second, second + 0.5, midi[i], 1.0F});
  }
  for (const std::size_t note : hardly) bytes.heard->line.notes[note].sure = 0.1F;
  return bytes;
}

}  // namespace

TEST_CASE("an unsure note of a take is named by the bar of the sheet that it was played for") {
  const std::vector<int> sheet{60, 62, 64, 65, 67, 69, 71, 72};
  const std::vector<int> played{48, 50, 60, 62, 64, 65, 67, 69, 71, 72};  // two notes before it begins
  const SoloBytes bytes = heard(played, {1, 2, 3, 9}, true);
  const auto alignment = insideline::align_take(sheet, played);
  const auto sound = from_sound(bytes, quarters(played.size(), 1), quarters(sheet.size(), 21), alignment);
  REQUIRE(sound);
  CHECK(sound->notes == 10);
  CHECK(sound->unsure == 4);
  CHECK(sound->places == Places{"0:01", "bar 21", "bar 22"});
}

TEST_CASE("an unsure note of a solo is named by its bar, and by its time where no beats are known") {
  const std::vector<int> played{60, 62, 64, 65, 67};
  CHECK(from_sound(heard(played, {0, 4}, true), quarters(played.size(), 1))->places == Places{"bar 1", "bar 2"});
  CHECK(from_sound(heard(played, {0, 4}, false), quarters(played.size(), 1))->places == Places{"0:00", "0:04"});
  CHECK(!from_sound(SoloBytes{}, quarters(played.size(), 1)));
}
