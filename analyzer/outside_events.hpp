// Outside as a shape: a group of notes that belongs to the chord a half step above or below the one that sounds is one
// event, a side-slip, and not so many wrong notes (jazz pedagogy; the term is common practice, no source).
#pragma once

#include "analyzer/heard_line.hpp"

#include <span>
#include <vector>

namespace insideline {

/// Runs of three notes and more over one chord, none of them a tone of it, all of them tones of the chord a half step
/// away, where at least half are labelled outside. In order.
std::vector<OutsideEvent> find_outside_events(const HeardLine& line, const Harmony& harmony,
                                              std::span<const NoteLabel> labels);

}  // namespace insideline
