// Jumps that are only printed: "D.C. al Fine" without anything that says how it sounds.
#pragma once

#include "io/musicxml/written_part.hpp"

#include <string_view>

namespace insideline::io {

/// The pass whose ending the words make the last: 2 in "D.C. al 2nd ending"; 0 where they name none.
int last_ending_in(std::string_view words);

/// Sets in `signs` what the printed words order: D.C., D.S., To Coda, Coda, Fine. False where
/// they order nothing. Words around them ("swing, D.C.") are not searched.
bool read_jump_words(std::string_view words, RoadSigns& signs);

}  // namespace insideline::io
