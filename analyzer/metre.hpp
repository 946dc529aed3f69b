// How much weight a place in the bar carries.
// Levels after Lerdahl & Jackendoff, A Generative Theory of Tonal Music (1983): one
// dot for each level of the grid (off-beat eighth, beat, half bar, bar) that a place starts.
#pragma once

#include "analyzer/model/solo.hpp"
#include "analyzer/settings.hpp"

#include <cstdint>
#include <string>

namespace insideline {

/// Dots of the metrical grid: 4/4 in eighths is 4 1 2 1 3 1 2 1, 3/4 is 3 1 2 1 2 1, smaller
/// values are 0. Swung, the last third and the last quarter of a beat are its off-beat too.
int metrical_weight(const Bar& bar, const Beats& position, Feel feel);
/// The same for a place `from_bar_line` ticks into a bar whose counted beat has `beat` ticks.
int metrical_weight(const Meter& meter, std::int64_t from_bar_line, std::int64_t beat, Feel feel);

/// The beat that is felt: the counted one, or three eighths in 6/8, 9/8, 12/8.
Beats felt_beat(const Meter& meter);

/// True on a counted beat.
bool is_on_beat(const Bar& bar, const Beats& position);

/// "beat 1", "the and of 2", "beat 3, second triplet": words for a place in the bar.
std::string place_in_words(const Bar& bar, const Beats& position);

}  // namespace insideline
