#include "analyzer/key_moves.hpp"

#include <cstdlib>

namespace insideline {
namespace {

constexpr int letters = 7;
constexpr int keys_there_are = 12;
constexpr int fifths_per_sharp = 7;

/// An interval by its place on the line of fifths, a fourth down to a tritone up.
Interval of_fifths(int fifths) {
  constexpr int fifth_steps = 4;
  constexpr int furthest_up = 6;
  Interval by{fifth_steps * fifths, fifths_per_sharp * fifths};
  while (by.semitones > furthest_up) by = {by.steps - letters, by.semitones - semitones_in_octave};
  while (by.semitones <= furthest_up - semitones_in_octave)
    by = {by.steps + letters, by.semitones + semitones_in_octave};
  return by;
}

}  // namespace

NoteName tonic_of(const Key& key) { return transposed(NoteName{}, of_fifths(key.fifths + tonic_above_major(key))); }

Key usual_spelling(const Key& key) {
  constexpr int most_signs_but_one = 6;
  if (key.fifths >= most_signs_but_one) return {key.fifths - keys_there_are, key.minor, key.mode};
  if (key.fifths < -most_signs_but_one) return {key.fifths + keys_there_are, key.minor, key.mode};
  return key;
}

Interval interval_between(const Key& from, const Key& to) { return of_fifths(to.fifths - from.fifths); }

std::vector<Key> keys_in_order(const Key& first, KeyOrder order) {
  const int step = order == KeyOrder::fourths ? -1 : fifths_per_sharp;  // along the line of fifths
  std::vector<Key> keys{first};
  int fifths = first.fifths;
  while (keys.size() < keys_there_are) {
    fifths += step;
    while (fifths >= keys_there_are / 2) fifths -= keys_there_are;
    while (fifths < -keys_there_are / 2) fifths += keys_there_are;
    keys.push_back(usual_spelling({fifths, first.minor, first.mode}));
  }
  return keys;
}

}  // namespace insideline
