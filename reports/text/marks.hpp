// The signs of the printed reports, the same on paper and on a screen: a chord tone is
// plain, a tension in a box, a non-chord tone in parentheses, an outside note with "!".
#pragma once

#include "analyzer/analysis.hpp"
#include "reports/text/ink.hpp"

#include <string>
#include <string_view>

namespace insideline::reports {

/// "b7", "[9]", "(b9)", "#5!", "-" without a chord; with an arrowhead where the note is
/// struck against the chord to come ("3»") or the one before ("«4").
std::string degree_mark(const NoteLabel& label);

Ink ink_of(Role role);

/// "pass", "encl" ...; empty for chord tones and tensions, whose degree says it all.
std::string_view abbreviation(Figure figure);

/// The signs explained, ready to print: a few lines of at most 80 columns.
std::string legend(Colour colour);

}  // namespace insideline::reports
