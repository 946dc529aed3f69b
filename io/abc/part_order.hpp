// The order of the parts that P: names: "P:A2(BC)3" in the header of a tune.
// Source: the ABC music standard 2.1 (abcnotation), from memory: 3.1.9.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace insideline::io {

/// "AABCBCBC" for "A2(BC)3"; none where the text is no such order or names more than 1,000 parts.
std::optional<std::string> abc_part_order(std::string_view text);

}  // namespace insideline::io
