// A count-in: three clicks or more, evenly spaced, before the first note. A click is loud at once and gone at once.
#pragma once

#include "io/audio/moments.hpp"

#include <cstddef>
#include <deque>
#include <span>
#include <vector>

namespace insideline::io {

/// True where moment `at` is a click, as far as can be told from those around it.
bool is_click(const std::deque<Moment>& moments, std::size_t at, float attack, float loudest_db);

/// Of the clicks, in moments and in order, the first that are evenly spaced; empty, or three or more.
std::vector<std::size_t> count_in(std::span<const std::size_t> clicks);

}  // namespace insideline::io
