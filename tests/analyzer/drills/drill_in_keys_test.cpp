#include "analyzer/drills/drill_in_keys.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <set>
#include <string>
#include <vector>

using insideline::bar_index_at;
using insideline::Beats;
using insideline::Changes;
using insideline::Drill;
using insideline::drill_in_keys;
using insideline::DrillInKeys;
using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::Key;
using insideline::KeyOrder;
using insideline::Note;
using insideline::tests::chart;
using insideline::tests::drilled;

namespace {

DrillInKeys through_keys(const Changes& changes, const DrillSettings& settings, KeyOrder order = KeyOrder::fourths) {
  auto result = drill_in_keys(changes, settings, order);
  REQUIRE(result);
  return *result;
}

/// MIDI numbers of the notes between two bars.
std::vector<int> heights(const Drill& drill, std::size_t first_bar, std::size_t bars) {
  std::vector<int> line;
  for (const Note& note : drill.solo.notes) {
    const std::size_t bar = bar_index_at(drill.solo, note.onset);
    if (bar >= first_bar && bar < first_bar + bars) line.push_back(midi_number(note.pitch));
  }
  return line;
}

Changes two_five_one() {
  Changes changes = chart("Dm7 | G7 | Cmaj7 | %");
  changes.key = Key{0, false};
  return changes;
}

DrillSettings wide() {
  DrillSettings settings;
  settings.range = {48, 84};
  return settings;
}

}  // namespace

TEST_CASE("every key has the first key's line, whole, an octave up or down where the range asks for it") {
  const DrillInKeys sheet = through_keys(two_five_one(), wide());
  REQUIRE(sheet.keys.size() == 12);
  CHECK(sheet.drill.solo.bars.size() == 48);
  const std::vector<int> first = heights(sheet.drill, 0, 4);
  for (const auto& start : sheet.keys) {
    const std::vector<int> line = heights(sheet.drill, start.bar, 4);
    REQUIRE(line.size() == first.size());
    CHECK_FALSE(start.own_line);
    const int shift = line.front() - first.front();
    CHECK((shift - pitch_class(tonic_of(start.key)) + 120) % 12 == 0);
    for (std::size_t i = 0; i < line.size(); ++i) CHECK(line[i] - first[i] == shift);
  }
}

TEST_CASE("no key leaves the range; what would, lies an octave away, and the line is the same but for that") {
  DrillSettings settings;
  settings.range = {58, 76};
  const DrillInKeys sheet = through_keys(two_five_one(), settings);
  const std::vector<int> first = heights(sheet.drill, 0, 4);
  std::size_t moved = 0;
  for (const auto& start : sheet.keys) {
    CHECK_FALSE(start.own_line);
    const std::vector<int> line = heights(sheet.drill, start.bar, 4);
    const std::size_t begin = start.bar / 4 * first.size();
    std::set<int> shifts;
    for (std::size_t i = 0; i < line.size(); ++i) {
      CHECK(line[i] >= settings.range.lowest);
      CHECK(line[i] <= settings.range.highest);
      const auto named = std::ranges::find_if(
          start.moves, [&](const auto& move) { return move.first <= begin + i && begin + i <= move.last; });
      shifts.insert(line[i] - first[i] - (named == start.moves.end() ? 0 : 12 * named->octaves));
    }
    CHECK(shifts.size() == 1);
    moved += start.moves.size();
  }
  CHECK(moved > 0);
}

TEST_CASE("in a range of an octave, where half of the line would have to move, a key has a line of its own") {
  DrillSettings settings;
  settings.range = {60, 72};
  const DrillInKeys sheet = through_keys(two_five_one(), settings);
  const auto own = std::ranges::count_if(sheet.keys, [](const auto& start) { return start.own_line; });
  CHECK(own > 0);
  for (const Note& note : sheet.drill.solo.notes) {
    CHECK(midi_number(note.pitch) >= settings.range.lowest);
    CHECK(midi_number(note.pitch) <= settings.range.highest);
  }
}

TEST_CASE("from key to key the line moves by the shortest way that the range has") {
  const DrillInKeys sheet = through_keys(two_five_one(), wide());
  int before = heights(sheet.drill, 0, 4).front();
  for (const auto& start : sheet.keys) {
    const int here = heights(sheet.drill, start.bar, 4).front();
    CHECK(std::abs(here - before) <= 12);
    before = here;
  }
}

TEST_CASE("each key has its signature, and its chords and notes are spelled in it") {
  const DrillInKeys sheet = through_keys(two_five_one(), wide());
  REQUIRE(sheet.drill.solo.keys.size() == 12);
  for (std::size_t i = 0; i < sheet.keys.size(); ++i) {
    CHECK(sheet.drill.solo.keys[i].key == sheet.keys[i].key);
    CHECK(sheet.drill.solo.keys[i].onset == sheet.drill.solo.bars[sheet.keys[i].bar].onset);
  }
  const auto chord_of = [&](std::size_t key, int bar) {
    const auto index = chord_index_at(sheet.drill.harmony, Beats(static_cast<int>(16 * key) + 4 * bar));
    REQUIRE(index);
    return sheet.drill.harmony.chords[*index].chord.symbol;
  };
  CHECK(chord_of(3, 0) == "Fm7");   // Eb
  CHECK(chord_of(6, 0) == "Abm7");  // Gb
  CHECK(chord_of(6, 2) == "Gbmaj7");
  CHECK(chord_of(7, 0) == "C#m7");  // B
  for (const Note& note : sheet.drill.solo.notes) {
    CHECK(note.spelled);
    CHECK(std::abs(note.pitch.name.alter) <= 1);
  }
}

TEST_CASE("bars, choruses and stretches of chords are counted on through the keys") {
  DrillSettings settings = wide();
  settings.choruses = 2;
  const DrillInKeys sheet = through_keys(two_five_one(), settings, KeyOrder::half_steps);
  CHECK(sheet.drill.harmony.choruses == 24);
  std::set<int> numbers;
  for (const auto& bar : sheet.drill.solo.bars) numbers.insert(bar.number);
  CHECK(numbers.size() == 96);
  CHECK(*numbers.rbegin() == 96);
  for (std::size_t i = 1; i < sheet.drill.harmony.chords.size(); ++i) {
    CHECK(sheet.drill.harmony.chords[i].onset > sheet.drill.harmony.chords[i - 1].onset);
    CHECK(sheet.drill.harmony.chords[i].stretch >= sheet.drill.harmony.chords[i - 1].stretch);
  }
  CHECK(sheet.drill.harmony.chords.back().chorus == 24);
}

TEST_CASE("in each key the other of two equally near tones is told, where it lies in the range") {
  const DrillInKeys sheet = through_keys(two_five_one(), wide());
  const Drill alone = drilled(two_five_one(), wide());
  REQUIRE_FALSE(alone.open_choices.empty());
  CHECK(sheet.drill.open_choices.size() > alone.open_choices.size());
  for (const auto& choice : sheet.drill.open_choices) {
    const int before = midi_number(sheet.drill.solo.notes[choice.note - 1].pitch);
    CHECK(std::abs(midi_number(choice.other) - before) ==
          std::abs(midi_number(sheet.drill.solo.notes[choice.note].pitch) - before));
  }
}

TEST_CASE("changes that no sheet can be made over are refused, in whichever key") {
  Changes silent = chart("N.C. | %");
  silent.key = Key{};
  CHECK_FALSE(drill_in_keys(silent, {}, KeyOrder::fourths));
}
