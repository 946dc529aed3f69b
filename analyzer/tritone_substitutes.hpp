// The tritone substitute in the line: over a dominant the line plays the dominant a tritone away, which shares its
// third and seventh. Common practice, no source.
#pragma once

#include "analyzer/heard_line.hpp"

#include <cstddef>
#include <vector>

namespace insideline {

struct TritoneSubstitute {
  std::size_t first = 0;  ///< into Solo::notes
  std::size_t last = 0;   ///< included
  std::size_t chord = 0;  ///< into Harmony::chords: the dominant that sounds
};

/// Three notes or more in a row over one dominant, all of them tones of the dominant a tritone away, with its root and
/// its fifth among them: the two that the chord below does not have. Over a chord whose symbol names one of these two,
/// they are its own colours and nothing is found. In order.
std::vector<TritoneSubstitute> find_tritone_substitutes(const HeardLine& line, const Harmony& harmony);

}  // namespace insideline
