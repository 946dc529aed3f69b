// Reads MusicXML 3.0 to 4.0, plain or compressed, as notation programs export it.
// Source: MusicXML 4.0, W3C Music Notation Community Group, final report.
#pragma once

#include "io/read_result.hpp"
#include "io/read_solo.hpp"

#include <string_view>

namespace insideline::io {

/// `bytes` is a whole file; `file_name` is for messages only. Every note of the solo
/// in the order it is played, in sounding pitch; what had to be repaired is a warning.
/// Throws ReadError with line, column and the bar where that is known.
ReadResult parse_musicxml(std::string_view bytes, std::string_view file_name, const ReadOptions& options = {});

}  // namespace insideline::io
