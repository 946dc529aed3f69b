#include "analyzer/model/solo.hpp"

#include <catch2/catch.hpp>

using insideline::Bar;
using insideline::Beats;
using insideline::Key;
using insideline::Meter;
using insideline::Solo;

namespace {

/// A pickup of one beat, two bars of 4/4 and one of 3/4.
Solo solo_with_pickup() {
  Solo solo;
  solo.bars = {{.number = 0, .onset = -1, .length = 1, .meter = {4, 4}},
               {.number = 1, .onset = 0, .length = 4, .meter = {4, 4}},
               {.number = 2, .onset = 4, .length = 4, .meter = {4, 4}},
               {.number = 3, .onset = 8, .length = 3, .meter = {3, 4}}};
  return solo;
}

}  // namespace

TEST_CASE("a place lies in the bar that began last") {
  const Solo solo = solo_with_pickup();
  CHECK(bar_index_at(solo, Beats(-1, 2)) == 0);
  CHECK(bar_index_at(solo, 0) == 1);
  CHECK(bar_index_at(solo, Beats(15, 4)) == 1);
  CHECK(bar_index_at(solo, 4) == 2);
  CHECK(bar_index_at(solo, -9) == 0);   // before the first
  CHECK(bar_index_at(solo, 100) == 3);  // after the last
}

TEST_CASE("beats are counted from the bar line, in a pickup back from it") {
  const Solo solo = solo_with_pickup();
  CHECK(beat_in_bar(solo.bars[1], 0) == Beats(1));
  CHECK(beat_in_bar(solo.bars[1], Beats(5, 2)) == Beats(7, 2));
  CHECK(beat_in_bar(solo.bars[2], 4) == Beats(1));
  CHECK(beat_in_bar(solo.bars[0], -1) == Beats(4));
  CHECK(beat_in_bar(solo.bars[0], Beats(-1, 2)) == Beats(9, 2));
}

TEST_CASE("beats of six-eight are eighths") {
  const Bar bar{.number = 1, .onset = 0, .length = 3, .meter = {6, 8}};
  CHECK(beat_in_bar(bar, Beats(3, 2)) == Beats(4));
}

TEST_CASE("a solo ends with its last bar and a note with its duration") {
  CHECK(end_of(solo_with_pickup()) == Beats(11));
  insideline::Note note;
  note.onset = Beats(1, 2);
  note.duration = Beats(1, 3);
  CHECK(end_of(note) == Beats(5, 6));
}

TEST_CASE("a key holds until the next one") {
  Solo solo = solo_with_pickup();
  CHECK_FALSE(key_at(solo, 0).has_value());
  solo.keys = {{.onset = 0, .key = {-3, false}}, {.onset = 8, .key = {2, true}}};
  CHECK_FALSE(key_at(solo, -1).has_value());
  CHECK(key_at(solo, 0) == Key{-3, false});
  CHECK(key_at(solo, Beats(31, 4)) == Key{-3, false});
  CHECK(key_at(solo, 8) == Key{2, true});
}
