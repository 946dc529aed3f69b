// A text file's bytes, and where an offset into them is for a person: line,
// column, and the line itself with a caret under the place.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace insideline::io {

/// Lines and columns count from 1; a column is a character (UTF-8), not a byte.
struct Place {
  std::string file;
  int line = 0;         ///< 0: the place is the file as a whole
  int column = 0;       ///< 0: the whole line
  std::string excerpt;  ///< the source line, shortened around the place; empty without a line
  int caret = 0;        ///< characters before the caret in `excerpt`
};

/// The file as a whole.
Place place_of(std::string_view file);
/// The place `offset_bytes` into `text`; the end of the text for offsets past it.
Place place_in(std::string_view file, std::string_view text, std::size_t offset_bytes);

/// "blues.changes:3:12", "blues.changes".
std::string to_string(const Place& place);

}  // namespace insideline::io
