// Swing and lateness in words, the same wherever a performance is spoken of.
#pragma once

#include "analyzer/measures/time_feel.hpp"

#include <string>

namespace insideline::reports {

/// "Eighths swing 1.56 to 1, long to short, the median of 50 pairs; ..."
std::string swing_in_words(const Swing& swing);

/// "12 ms behind the beat (3 % of a beat)"
std::string lateness_in_words(const Lateness& lateness);

/// A place in a bar as it is counted: "2", "2&", "2+1/3".
std::string beat_in_words(const Beats& beat);

}  // namespace insideline::reports
