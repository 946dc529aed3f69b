// The signs of the printed page as calls of the prelude: roles, degrees, cells.
#pragma once

#include "analyzer/analysis.hpp"

#include <span>
#include <string>
#include <string_view>

namespace insideline::reports {

/// "C" chord tone, "T" tension, "N" non-chord tone, "O" outside, "X" no chord.
std::string_view role_letter(Role role);

/// The colour of its heads, "#0072B2": the same as role-colour in the prelude of the page.
std::string_view role_colour(Role role);

/// \degree #'T "" "b" "9" "": with an arrowhead where the note is heard against the chord to come or the one before.
std::string degree_markup(const NoteLabel& label);

/// "up", "down", "down!" (straight down), "both ways", "turns".
std::string_view way_of(const Arpeggio& arpeggio);

/// \markup \cell "down" { \plain-degree "" "5" "-" ... }.
std::string cell_markup(std::string_view way, std::span<const Degree> degrees);

}  // namespace insideline::reports
