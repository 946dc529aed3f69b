// The line map, the picture of this program: pitch upwards and time across, with the tones of the sounding chord as
// lanes behind the line, the notes marked by role in colour and shape, degrees beside them, brackets over arpeggios
// and its connections with the next chord.
#pragma once

#include "reports/html/map_layout.hpp"
#include "reports/html/markup.hpp"
#include "reports/report.hpp"

namespace insideline::reports {

/// All systems, with what shows and hides their parts, and the signs explained. Needs `line_map_style`.
Markup line_map(const Report& report, const MapLayout& layout);

/// One system as SVG; note n is the element #n<n>, chord c #c<c>.
Markup map_system(const Report& report, const MapLayout& layout, std::size_t system);

/// What the marks of the notes are drawn with, once a page.
Markup mark_shapes();

/// "c", "t", "n", "o", "x": the class of a note and the end of the name of its mark.
std::string_view role_class(Role role);

}  // namespace insideline::reports
