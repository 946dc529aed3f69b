// Everything in a line that is played again, or that a textbook has a name for, beside arpeggios.
#pragma once

#include "analyzer/heard_line.hpp"

namespace insideline {

Patterns find_patterns(const HeardLine& line, const Solo& solo, const Harmony& harmony);

}  // namespace insideline
