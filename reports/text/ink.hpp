// Colour on a terminal. Colour never says anything alone: every ink goes with a sign
// that black and white shows as well (marks.hpp).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace insideline::reports {

enum class Colour : std::uint8_t { off, on };

enum class Ink : std::uint8_t { plain, title, faint, chord_tone, tension, non_chord_tone, outside };

/// `text` between the escape sequences of `ink`, or as it is without colour.
std::string painted(std::string_view text, Ink ink, Colour colour);

}  // namespace insideline::reports
