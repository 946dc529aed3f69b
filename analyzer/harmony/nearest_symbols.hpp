// Readable symbols that look like an unreadable one.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace insideline {

/// At most three readable symbols that resemble `symbol`, best first. `offset_bytes` is where reading stopped.
std::vector<std::string> nearest_symbols(std::string_view symbol, std::size_t offset_bytes);

/// Insertions, deletions, replacements and swaps of neighbours that lead from `a` to `b`, in quarters of
/// an edit: a mere change of case counts one quarter.
int edit_distance(std::string_view a, std::string_view b);

}  // namespace insideline
