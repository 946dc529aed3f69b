// The side-slips of a line (analyzer/labels/side_slips.hpp) as events.
#pragma once

#include "analyzer/heard_line.hpp"

#include <span>
#include <vector>

namespace insideline {

/// The side-slips of which at least half the notes are labelled outside, in order.
std::vector<OutsideEvent> find_outside_events(const HeardLine& line, const Harmony& harmony,
                                              std::span<const NoteLabel> labels);

}  // namespace insideline
