// From key to key: which keys there are, how each is usually written, and the interval that leads from one to another.
// The order of fourths and the order of half steps are how teachers send a phrase through the keys; that a key is
// written with the fewest signs, and with six of them in flats, is common practice, no source.
#pragma once

#include "analyzer/model/changes.hpp"

#include <cstdint>
#include <vector>

namespace insideline {

enum class KeyOrder : std::uint8_t {
  fourths,    ///< C F Bb Eb ...
  half_steps  ///< C Db D Eb ...
};

NoteName tonic_of(const Key& key);

/// The same key with the fewest signs: C# major is Db major, F# major is Gb major.
Key usual_spelling(const Key& key);

/// From tonic to tonic by the shorter way, a tritone up.
Interval interval_between(const Key& from, const Key& to);

/// All twelve: `first` as it is spelled, the others as they are usually written.
std::vector<Key> keys_in_order(const Key& first, KeyOrder order);

}  // namespace insideline
