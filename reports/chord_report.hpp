// What the program understands by a chord symbol, for people who want to check.
#pragma once

#include "analyzer/model/chord.hpp"
#include "reports/text/ink.hpp"

#include <string>
#include <string_view>

namespace insideline::reports {

/// Tones, tensions, notes to avoid and guide tones, each with its degree and its name, and how
/// else the chord is written. At most 80 columns wide.
std::string chord_report(const Chord& chord, Colour colour = Colour::off);

/// The same for a symbol that means no chord.
std::string no_chord_report(std::string_view symbol, Colour colour = Colour::off);

}  // namespace insideline::reports
