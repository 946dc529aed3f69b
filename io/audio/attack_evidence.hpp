// How surely a moment is an attack, from the moments around it: the partials rise more than just before and after, or
// the level dips and comes back, as it does under the tongue.
#pragma once

#include "io/audio/moments.hpp"

#include <cstddef>
#include <deque>

namespace insideline::io {

/// Moments on either side that are looked at.
constexpr std::size_t attack_surroundings = 17;

/// 0 to 1. `at` is an index into `moments`; at the ends there is less to look at.
float attack_evidence(const std::deque<Moment>& moments, std::size_t at);

}  // namespace insideline::io
