// Which notes of a bar hang together under beams: those of one beat, as far as they have flags.
// Source: E. Gould, Behind Bars (2011), "Grouping within the bar"; MusicXML 4.0, beam-value.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/notation/rhythm_writing.hpp"

#include <string_view>
#include <vector>

namespace insideline::io {

/// For each symbol of the bar, in order, what its beams do, outermost first: "begin", "continue", "end",
/// "forward hook", "backward hook". Empty for what has no beam.
std::vector<std::vector<std::string_view>> beams_of(const WrittenBar& bar, const Meter& meter);

}  // namespace insideline::io
