// What every printed sheet says to LilyPond before its music: the signs, the colours, the
// page. It is our own text and holds nothing from a file; the music that follows calls it.
// Colours: M. Okabe and K. Ito, Color Universal Design (2008).
#pragma once

#include <string_view>

namespace insideline::reports {

/// The text expects `sheet` ('annotated, 'worksheet or 'key), `title-size`,
/// `roomy` (lines stand well apart) and `fewest-systems` (on a page) to be
/// defined before it.
std::string_view printed_prelude();

}  // namespace insideline::reports
