// Brings a score's bytes to UTF-8, so that everything after it knows one encoding, and puts
// additions back into the bytes as they came.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace insideline::io {

/// Valid UTF-8 without a byte order mark. Reads UTF-8, UTF-16, ISO-8859-1 and US-ASCII by
/// their byte order mark or XML declaration; throws ReadError for any other declared
/// encoding and for bytes that are not what they claim to be. `converted` keeps the text
/// where it had to be rewritten; the result points into it or into `bytes`.
std::string_view as_utf8(std::string_view bytes, std::string_view file_name, std::string& converted);

struct Insertion {
  std::size_t offset = 0;  ///< into the text that as_utf8 gives
  std::string ascii;       ///< characters that every one of the encodings has
};

/// `bytes` in their own encoding with `insertions` added, which must be in order of their offset.
/// `text` is what as_utf8 made of the same bytes.
std::string with_insertions(std::string_view bytes, std::string_view text, std::span<const Insertion> insertions);

}  // namespace insideline::io
