// Rhythms as short texts: "4. 8~8 r4 3:2(8 8 8)" is a dotted quarter, an eighth tied to
// another, a rest and a triplet; "g" before a value counts its grace notes; bars part at "|".
#pragma once

#include "analyzer/notation/rhythm_writing.hpp"

#include <span>
#include <string>

namespace insideline::tests {

std::string text_of(std::span<const WrittenBar> bars);

}  // namespace insideline::tests
