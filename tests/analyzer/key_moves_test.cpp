#include "analyzer/key_moves.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using insideline::Interval;
using insideline::interval_between;
using insideline::Key;
using insideline::KeyOrder;
using insideline::keys_in_order;
using insideline::tonic_of;
using insideline::usual_spelling;

namespace {

std::string names_in_order(const Key& first, KeyOrder order) {
  std::string names;
  for (const Key& key : keys_in_order(first, order)) names += (names.empty() ? "" : " ") + to_string(tonic_of(key));
  return names;
}

}  // namespace

TEST_CASE("round the fourths, each key is written with the fewest signs, six of them in flats") {
  CHECK(names_in_order({0, false}, KeyOrder::fourths) == "C F Bb Eb Ab Db Gb B E A D G");
  CHECK(names_in_order({-3, false}, KeyOrder::fourths) == "Eb Ab Db Gb B E A D G C F Bb");
  CHECK(names_in_order({0, true}, KeyOrder::fourths) == "A D G C F Bb Eb G# C# F# B E");
}

TEST_CASE("by half steps the keys rise, whatever their signs are") {
  CHECK(names_in_order({0, false}, KeyOrder::half_steps) == "C Db D Eb E F Gb G Ab A Bb B");
  CHECK(names_in_order({-3, true}, KeyOrder::half_steps) == "C C# D Eb E F F# G G# A Bb B");
}

TEST_CASE("the first key keeps the spelling it came with, and every order has all twelve") {
  CHECK(names_in_order({6, false}, KeyOrder::fourths) == "F# B E A D G C F Bb Eb Ab Db");
  CHECK(names_in_order({7, false}, KeyOrder::half_steps).starts_with("C# D Eb"));
  for (const KeyOrder order : {KeyOrder::fourths, KeyOrder::half_steps})
    for (int fifths = -7; fifths <= 7; ++fifths) {
      std::set<int> sounding;
      for (const Key& key : keys_in_order({fifths, false}, order)) sounding.insert(pitch_class(tonic_of(key)));
      CHECK(sounding.size() == 12);
    }
}

TEST_CASE("from key to key by the shorter way, spelled as the tonics are") {
  CHECK(interval_between(Key{-3}, Key{-4}) == Interval{3, 5});  // Eb up to Ab
  CHECK(interval_between(Key{0}, Key{1}) == Interval{-3, -5});  // C down to G
  CHECK(interval_between(Key{0}, Key{6}) == Interval{3, 6});    // C up to F#
  CHECK(interval_between(Key{0}, Key{-6}) == Interval{4, 6});   // C up to Gb
  CHECK(interval_between(Key{6}, Key{-6}) == Interval{1, 0});   // F# is Gb
  CHECK(interval_between(Key{-6}, Key{6}) == Interval{-1, 0});  // Gb is F#
  CHECK(interval_between(Key{2}, Key{2}) == Interval{0, 0});
  for (int from = -7; from <= 7; ++from)
    for (int to = -7; to <= 7; ++to) {
      const Interval by = interval_between(Key{from}, Key{to});
      CHECK(transposed(Key{from}, by) == Key{to});
      CHECK(transposed(tonic_of(Key{from}), by) == tonic_of(Key{to}));
      CHECK((by.semitones >= -5 && by.semitones <= 6));
    }
}

TEST_CASE("a key of many signs has a plainer name, others keep theirs") {
  CHECK(usual_spelling({7, false}) == Key{-5, false});
  CHECK(usual_spelling({6, false}) == Key{-6, false});
  CHECK(usual_spelling({-7, false}) == Key{5, false});
  CHECK(usual_spelling({-7, true}) == Key{5, true});  // Ab minor is G# minor
  CHECK(usual_spelling({-6, true}) == Key{-6, true});
  CHECK(usual_spelling({5, false}) == Key{5, false});
  CHECK(to_string(tonic_of({5, true})) == "G#");
  CHECK(to_string(tonic_of({0, false, insideline::Mode::mixolydian})) == "G");
}
