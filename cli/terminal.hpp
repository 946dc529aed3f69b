// Whether the terminal wants colour.
#pragma once

#include "reports/text/ink.hpp"

#include <cstdint>

namespace insideline::cli {

enum class ColourChoice : std::uint8_t { automatic, always, never };

/// Automatic is colour on a terminal, unless NO_COLOR is set to anything or TERM is "dumb".
reports::Colour colour_of_standard_output(ColourChoice choice);

}  // namespace insideline::cli
