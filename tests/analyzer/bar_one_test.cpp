#include "analyzer/bar_one.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/spelling.hpp"

#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Bar;
using insideline::Beats;
using insideline::Changes;
using insideline::choose_bar_one;
using insideline::CountIn;
using insideline::Note;
using insideline::Solo;

namespace {

/// A symbol a bar; "-" is N.C.
Changes waiting_chart(const std::string& chords) {
  Changes changes;
  Beats now;
  std::istringstream words(chords);
  for (std::string word; words >> word;) {
    std::optional<insideline::Chord> chord;
    if (word != "-") chord = insideline::parse_chord_symbol(word).value();
    changes.spans.push_back({.chord = chord, .onset = now, .duration = 4});
    changes.bars.push_back({.onset = now, .length = 4, .section = {}});
    now += 4;
  }
  return changes;
}

/// Eighths up and down a triad, a root a bar.
Solo triads(const std::vector<int>& roots) {
  Solo solo;
  for (const int root : roots) {
    const Beats bar(static_cast<std::int64_t>(solo.bars.size()) * 4);
    solo.bars.push_back({.number = static_cast<int>(solo.bars.size()) + 1, .onset = bar, .length = 4, .meter = {}});
    for (int eighth = 0; eighth < 8; ++eighth) {
      Note note;
      note.onset = bar + Beats(eighth, 2);
      note.duration = Beats(1, 2);
      constexpr int steps[] = {0, 4, 7, 12, 7, 4, 0, 4};
      const int midi = root + steps[eighth];
      note.pitch = insideline::spelled_pitch(midi, insideline::usual_name(midi % 12, {}));
      note.place = {.bar = std::to_string(solo.bars.back().number), .position = note.onset - bar, .element = 0};
      solo.notes.push_back(note);
    }
  }
  return solo;
}

CountIn empty_bars(int count, int file_bars) {
  CountIn count_in;
  for (int bar = 0; bar < count; ++bar)
    count_in.bars.push_back({.number = bar + 1, .onset = Beats(bar * 4), .length = 4, .meter = {}});
  count_in.file_bars = file_bars;
  return count_in;
}

constexpr int c = 60;
constexpr int f_sharp = 66;
constexpr int a = 57;
constexpr int e_flat = 63;

}  // namespace

TEST_CASE("empty bars count where the chart counts them, and are a count-in where it does not") {
  const Solo solo = triads({c, f_sharp, a, e_flat});
  const auto [chords, empty, kept] = GENERATE(table<std::string, int, int>({
      {"C F# A Eb", 2, 0},        // the notes say so
      {"G7 G7 C F# A Eb", 2, 2},  // the soloist waits
      {"- - C F# A Eb", 2, 2},    // and nobody plays
      {"G7 C F# A Eb", 3, 1},     // two bars are counted, then the soloist waits for one
      {"C F# A Eb G7", 1, 0},     // the chart goes on after the solo
      {"C C C C", 2, 0},          // the notes do not tell: as without a chart
      {"C C C C C C", 2, 2},      // but the length does
      {"- - C C C C C C", 2, 2},  // or the silence
  }));
  CAPTURE(chords);
  const auto choice = choose_bar_one(waiting_chart(chords), solo, empty_bars(empty, 4 + empty));
  REQUIRE(choice.has_value());
  CHECK(choice->bars == empty);
  CHECK(choice->chosen.kept == kept);
  CHECK(choice->runner_up.kept != kept);
}

TEST_CASE("the choice of bar 1 is told with the chord tones of both places") {
  const auto choice = choose_bar_one(waiting_chart("G7 C F# A Eb"), triads({c, f_sharp, a, e_flat}), empty_bars(1, 5));
  REQUIRE(choice.has_value());
  CHECK(choice->chosen.chord_tones == insideline::Share{32, 32});
  CHECK(choice->runner_up.kept == 0);
  CHECK(choice->runner_up.chord_tones.of == 32);
  CHECK(choice->runner_up.chord_tones.count < 12);
  CHECK(choice->as_long_as_chart);
}

TEST_CASE("there is no choice of bar 1 over chords of the score itself, in mixed meters, or without empty bars") {
  const Solo solo = triads({c, a});
  Changes changes = waiting_chart("C A");
  CHECK_FALSE(choose_bar_one(changes, solo, empty_bars(0, 2)).has_value());
  CountIn uneven = empty_bars(1, 3);
  uneven.bars.front().length = 3;
  CHECK_FALSE(choose_bar_one(changes, solo, uneven).has_value());
  CHECK(choose_bar_one(changes, solo, empty_bars(1, 3)).has_value());
  changes.extent = insideline::Extent::once;
  CHECK_FALSE(choose_bar_one(changes, solo, empty_bars(1, 3)).has_value());
}

TEST_CASE("a solo counted with its empty bars begins later, and a pickup lies in the last of them") {
  Solo solo = triads({c, a});
  solo.bars.insert(solo.bars.begin(), Bar{.number = 0, .onset = -1, .length = 1, .meter = {}});
  Note pickup = solo.notes.front();
  pickup.onset = -1;
  pickup.place = {.bar = "0", .position = 0, .element = 0};
  solo.notes.insert(solo.notes.begin(), pickup);
  solo.keys = {{.onset = -1, .key = {}}};
  solo.performed.resize(solo.notes.size());
  const Solo counted = counted_with(std::move(solo), empty_bars(2, 4).bars);
  REQUIRE(counted.bars.size() == 4);
  for (int bar = 0; bar < 4; ++bar) {
    CHECK(counted.bars[static_cast<std::size_t>(bar)].number == bar + 1);
    CHECK(counted.bars[static_cast<std::size_t>(bar)].onset == Beats(4 * bar));
  }
  CHECK(counted.notes[0].onset == Beats(7));
  CHECK(counted.notes[0].place.bar == "2");
  CHECK(counted.notes[0].place.position == Beats(3));
  CHECK(counted.notes[1].onset == Beats(8));
  CHECK(counted.notes[1].place.bar == "3");
  CHECK(counted.keys.front().onset == Beats(0));
  CHECK(counted.performed[0].onset_beats == Approx(8.0));
}
