// A tune in ABC, the text standard for tunes that people type in.
// Source: the ABC music standard 2.1 (abcnotation), from memory.
#pragma once

#include "io/read_solo.hpp"

#include <string_view>

namespace insideline::io {

/// True for text with the fields of a tune, X: or K: at the front of a line, and for any text in a file named .abc.
bool is_abc(std::string_view bytes, std::string_view file_name);

/// The first tune of the file that has notes, or options.tune. Repeats, endings and the order of P: are played out as
/// those of a MusicXML score are. Throws ReadError with line and column.
ReadResult parse_abc(std::string_view bytes, std::string_view file_name, const ReadOptions& options = {});

}  // namespace insideline::io
