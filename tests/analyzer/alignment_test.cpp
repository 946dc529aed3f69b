#include "analyzer/alignment.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/melody.hpp"

#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Alignment;
using insideline::Bar;
using insideline::Beats;
using insideline::Changes;
using insideline::Contradiction;
using insideline::disagreements;
using insideline::Extent;
using insideline::Harmony;
using insideline::Key;
using insideline::lay_out;
using insideline::Meter;
using insideline::Solo;
using insideline::tests::solo_from;

namespace {

/// A looping chart with one chord a bar: "C F N.C. G7".
Changes chart(const std::string& chords, const Meter& meter = {}) {
  Changes changes;
  changes.meter = meter;
  const Beats length = bar_length(meter);
  Beats now;
  std::istringstream words(chords);
  for (std::string word; words >> word;) {
    changes.spans.push_back({.chord = insideline::parse_chord_symbol(word).value(), .onset = now, .duration = length});
    changes.bars.push_back({.onset = now, .length = length, .section = {}});
    now += length;
  }
  return changes;
}

/// A solo of `count` full bars, after a pickup of that length where it is above zero.
Solo bars_of_rest(int count, const Meter& meter = {}, const Beats& pickup = {}) {
  Solo solo;
  if (pickup > Beats{}) solo.bars.push_back({.number = 0, .onset = -pickup, .length = pickup, .meter = meter});
  const Beats length = bar_length(meter);
  for (int bar = 0; bar < count; ++bar)
    solo.bars.push_back({.number = bar + 1, .onset = Beats(bar) * length, .length = length, .meter = meter});
  return solo;
}

/// "C@0x1 F@4x1": symbol, onset and chorus of each chord.
std::string laid_out(const Harmony& harmony) {
  std::string text;
  for (const auto& chord : harmony.chords)
    text += (text.empty() ? "" : " ") + chord.chord.symbol + '@' + to_string(chord.onset) + 'x' +
            std::to_string(chord.chorus);
  return text;
}

std::vector<std::string> messages(const Changes& changes, const Solo& solo, const Alignment& alignment = {}) {
  std::vector<std::string> all;
  for (const auto& disagreement : disagreements(changes, solo, alignment)) all.push_back(disagreement.message);
  return all;
}

}  // namespace

TEST_CASE("a chart repeats for as long as the solo lasts, each pass a chorus") {
  const Harmony harmony = lay_out(chart("C F"), bars_of_rest(5));
  CHECK(laid_out(harmony) == "C@0x1 F@4x1 C@8x2 F@12x2 C@16x3");
  CHECK(harmony.choruses == 3);
  CHECK(harmony.chorus_length == Beats(8));
  CHECK(harmony.first_chorus == Beats(0));
  CHECK(harmony.chords[4].bar == 5);
}

TEST_CASE("the start bar says where bar 1 of the chart falls, and the form goes on backwards from there") {
  const auto [start_bar, expected, first] = GENERATE(table<int, std::string, Beats>({
      {1, "C@0x1 F@4x1 G7@8x1 C@12x2", 0},
      {2, "G7@0x1 C@4x2 F@8x2 G7@12x2", 4},
      {3, "F@0x1 G7@4x1 C@8x2 F@12x2", 8},
      {4, "C@0x1 F@4x1 G7@8x1 C@12x2", 0},  // a whole form later is the same
      {0, "F@0x1 G7@4x1 C@8x2 F@12x2", 8},  // a bar before the first
      {-1, "G7@0x1 C@4x2 F@8x2 G7@12x2", 4},
      {7, "C@0x1 F@4x1 G7@8x1 C@12x2", 0},  // beyond the solo it counts on in bars
      {8, "G7@0x1 C@4x2 F@8x2 G7@12x2", 4},
  }));
  const Harmony harmony = lay_out(chart("C F G7"), bars_of_rest(4), {.start_bar = start_bar});
  CHECK(laid_out(harmony) == expected);
  CHECK(harmony.first_chorus == first);
}

TEST_CASE("no chord sounds in a pickup, and bar 1 of the chart is the first full bar") {
  const Solo solo = bars_of_rest(2, Meter{4, 4}, 1);
  CHECK(laid_out(lay_out(chart("C F"), solo)) == "C@0x1 F@4x1");
  CHECK(laid_out(lay_out(chart("C F"), solo, {.start_bar = 2})) == "F@0x1 C@4x2");
}

TEST_CASE("N.C. leaves a gap") {
  const Harmony harmony = lay_out(chart("C N.C. F"), bars_of_rest(3));
  CHECK(laid_out(harmony) == "C@0x1 F@8x1");
  CHECK_FALSE(chord_index_at(harmony, 5).has_value());
}

TEST_CASE("a chart of N.C. alone still has choruses") {
  const Harmony harmony = lay_out(chart("N.C. N.C."), bars_of_rest(4));
  CHECK(harmony.chords.empty());
  CHECK(harmony.choruses == 2);
}

TEST_CASE("the last chord is cut at the end of the solo") {
  Solo solo = bars_of_rest(2);
  solo.bars.back().length = 3;
  const Harmony harmony = lay_out(chart("C F"), solo);
  CHECK(harmony.chords.back().duration == Beats(3));
}

TEST_CASE("equal chords side by side are one stretch, also from chorus to chorus, but not across N.C.") {
  const Harmony harmony = lay_out(chart("C C F C"), bars_of_rest(8));
  std::vector<int> stretches;
  for (const auto& chord : harmony.chords) stretches.push_back(chord.stretch);
  CHECK(stretches == std::vector{0, 0, 1, 2, 2, 2, 3, 4});
  const Harmony gap = lay_out(chart("C N.C. C"), bars_of_rest(3));
  CHECK(gap.chords[0].stretch != gap.chords[1].stretch);
}

TEST_CASE("chords written over a score sound once, in its pickup as well, and do not loop") {
  Changes changes = chart("G7 C");
  changes.extent = Extent::once;
  changes.spans[0].onset = -1;
  changes.spans[0].duration = 1;
  changes.spans[1].onset = 0;
  changes.spans[1].duration = 4;
  const Harmony harmony = lay_out(changes, bars_of_rest(3, Meter{4, 4}, 1));
  CHECK(laid_out(harmony) == "G7@-1x1 C@0x1");
  CHECK(harmony.chorus_length == Beats(0));
  CHECK(harmony.choruses == 1);
  CHECK(harmony.chords[0].bar == 0);
}

TEST_CASE("moving the solo by whole choruses moves the chords with it") {
  const int bars = GENERATE(1, 2, 5);
  const Changes changes = chart("C F G7 C");
  const Solo solo = bars_of_rest(8);
  const Alignment here{.start_bar = bars};
  const Alignment later{.start_bar = bars + 4};
  CHECK(laid_out(lay_out(changes, solo, here)) == laid_out(lay_out(changes, solo, later)));
}

TEST_CASE("a chart in another meter than the solo cannot lie under it") {
  const auto [chart_meter, solo_meter, message] = GENERATE(table<Meter, Meter, std::string>({
      {{3, 4}, {4, 4}, "the changes are in 3/4, but bar 1 of the solo is in 4/4"},
      {{4, 4}, {3, 4}, "the changes are in 4/4, but bar 1 of the solo is in 3/4"},
      {{6, 8}, {3, 4}, "the changes are in 6/8, but bar 1 of the solo is in 3/4"},
  }));
  const auto found = disagreements(chart("C F", chart_meter), bars_of_rest(4, solo_meter));
  REQUIRE(found.size() == 1);
  CHECK(found[0].kind == Contradiction::meter);
  CHECK(found[0].message == message);
}

TEST_CASE("a chart without a meter means 4/4, and says so where that is wrong") {
  Changes changes = chart("C F");
  changes.meter.reset();
  CHECK(messages(changes, bars_of_rest(4)).empty());
  CHECK(messages(changes, bars_of_rest(4, Meter{3, 4})) ==
        std::vector<std::string>{"the changes state no meter, which means 4/4, but bar 1 of the solo is in 3/4"});
}

TEST_CASE("a change of meter in the solo is found where it happens") {
  Solo solo = bars_of_rest(4);
  solo.bars[2].meter = {3, 4};
  solo.bars[2].length = 3;
  solo.bars[3].onset = 11;
  CHECK(messages(chart("C F"), solo) ==
        std::vector<std::string>{"the changes are in 4/4, but bar 3 of the solo is in 3/4"});
}

TEST_CASE("a chart with a bar in another meter lies under a solo that has one there, in every chorus") {
  Changes changes = chart("C F G7");
  changes.bars[1].meter = Meter{2, 4};
  changes.bars[1].length = changes.spans[1].duration = 2;
  changes.bars[2].onset = changes.spans[2].onset = 6;
  Solo solo = bars_of_rest(6);
  Beats now;
  for (std::size_t i = 0; i < solo.bars.size(); ++i) {
    if (i % 3 == 1) solo.bars[i].meter = {2, 4};
    solo.bars[i].onset = now;
    solo.bars[i].length = bar_length(solo.bars[i].meter);
    now += solo.bars[i].length;
  }
  CHECK(messages(changes, solo).empty());
  CHECK(laid_out(lay_out(changes, solo)) == "C@0x1 F@4x1 G7@6x1 C@10x2 F@14x2 G7@16x2");
  CHECK(messages(changes, bars_of_rest(3)) ==
        std::vector<std::string>{"the changes are in 2/4 there, but bar 2 of the solo is in 4/4"});
}

TEST_CASE("common time and cut time lie under each other") {
  CHECK(messages(chart("C F", Meter{2, 2}), bars_of_rest(4)).empty());
}

TEST_CASE("an irregular bar that throws the chart out of step is named") {
  Solo solo = bars_of_rest(4);
  solo.bars[1].length = 3;
  solo.bars[2].onset = 7;
  solo.bars[3].onset = 11;
  const auto found = disagreements(chart("C F"), solo);
  REQUIRE(found.size() == 1);
  CHECK(found[0].kind == Contradiction::bars);
  CHECK(found[0].message ==
        "bar 2 of the solo has 3 beats, so that after it the bars of the changes and of the solo no longer begin "
        "together");
}

TEST_CASE("a bar that a repeat sign splits, and a short last bar, keep the chart in step") {
  Solo split = bars_of_rest(4);
  split.bars[1].length = 3;
  split.bars[2].onset = 7;
  split.bars[2].length = 1;
  split.bars[3].onset = 8;
  split.bars[3].length = 3;
  CHECK(messages(chart("C F"), split).empty());
}

TEST_CASE("keys are compared as they sound") {
  Changes changes = chart("C F");
  Solo solo = bars_of_rest(4);
  CHECK(messages(changes, solo).empty());  // nobody names a key
  changes.key = Key{-3, false};
  CHECK(messages(changes, solo).empty());  // the score names none
  solo.keys = {{.onset = 0, .key = {-3, true}}};
  CHECK(messages(changes, solo).empty());  // relative keys share a signature
  solo.keys = {{.onset = 0, .key = {1, false}}};
  CHECK(messages(changes, solo) == std::vector<std::string>{"the changes are in Eb, but the solo sounds in G"});
  solo.keys = {{.onset = 0, .key = {0, false}}};
  CHECK(messages(changes, solo) ==
        std::vector<std::string>{"the changes are in Eb, but the solo has a key signature without sharps or flats"});
}

TEST_CASE("a chart in the key in which a transposing part is written is told apart") {
  Changes changes = chart("D G");
  changes.key = Key{2, false};
  Solo solo = bars_of_rest(4);
  solo.sounding_minus_written = insideline::usual_interval(-14);
  solo.keys = {{.onset = 0, .key = {0, false}}};
  const auto found = disagreements(changes, solo);
  REQUIRE(found.size() == 1);
  CHECK(found[0].kind == Contradiction::written_key);
  CHECK(found[0].message == "the changes are in D, the key in which the solo is written; it sounds in C");
}

TEST_CASE("a pickup is compared only where the chart states one") {
  Changes changes = chart("C F");
  const Solo solo = bars_of_rest(4, Meter{4, 4}, 1);
  CHECK(messages(changes, solo).empty());
  changes.pickup = Beats(1);
  CHECK(messages(changes, solo).empty());
  changes.pickup = Beats(2);
  CHECK(messages(changes, solo) == std::vector<std::string>{"pickup: the changes have 2 beats, the solo has 1 beat"});
  CHECK(messages(changes, bars_of_rest(4)) ==
        std::vector<std::string>{"pickup: the changes have 2 beats, the solo has none"});
}

TEST_CASE("chords written over the score itself contradict nothing") {
  Changes changes = chart("C F", Meter{3, 4});
  changes.extent = Extent::once;
  changes.key = Key{5, false};
  Solo solo = bars_of_rest(2);
  solo.keys = {{.onset = 0, .key = {-3, false}}};
  CHECK(messages(changes, solo).empty());
}
