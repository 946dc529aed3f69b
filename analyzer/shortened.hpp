// A piece of somebody's file as a message quotes it.
#pragma once

#include <string>
#include <string_view>

namespace insideline {

/// The first 40 bytes of `text`, which is UTF-8, and "..." for the rest.
std::string shortened(std::string_view text);

}  // namespace insideline
