// A part of a chart, as a chart of its own.
#pragma once

#include "analyzer/model/changes.hpp"

#include <cstddef>

namespace insideline {

/// `count` bars (> 0) of the form from index `first` on; all of them are there. It begins at its own bar 1, and a chord
/// that sounds on into it begins there.
Changes part_of(const Changes& changes, std::size_t first, std::size_t count);

}  // namespace insideline
