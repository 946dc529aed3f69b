// Enclosures as figures: the notes on both sides of a target, whether each of them is foreign to the chord or one is a
// tone of it, and the target. What an enclosure is, the labels say (analyzer/labels).
#pragma once

#include "analyzer/analysis.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace insideline {

struct Enclosure {
  std::vector<std::size_t> around;  ///< into Solo::notes, two or three of them, in order
  std::size_t target = 0;
};

/// The figures that the labels tell, in order. `labels` runs parallel to `solo.notes`.
std::vector<Enclosure> find_enclosures(const Solo& solo, std::span<const NoteLabel> labels);

}  // namespace insideline
