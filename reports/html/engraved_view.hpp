// The engraved score inside a page: one drawing a system, as LilyPond's SVG writer made it from our text.
#pragma once

#include "reports/html/markup.hpp"

#include <span>
#include <string>

namespace insideline::reports {

/// `drawings` are whole SVG files in the order of the systems. Their own style sheet and size in millimetres are left
/// out, and the ids of their notes begin with "e", for the line map has those with "n". A drawing that holds anything
/// but shapes and lettering (a script, say) is left out.
Markup engraved_view(std::span<const std::string> drawings);

}  // namespace insideline::reports
