// How many columns of a terminal a text takes. Titles and part names come from files,
// in any script, and must neither break the columns nor drive the terminal.
// Source of the ranges: Unicode 15.0, EastAsianWidth.txt (W and F) and
// DerivedGeneralCategory.txt (Mn, Me, Cf), by block where a whole block agrees.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace insideline::reports {

/// The next character of `text`, at least one byte of it; a byte that is not UTF-8 stands alone.
std::string_view first_character(std::string_view text);

/// 0, 1 or 2.
std::size_t character_width(std::string_view character);
std::size_t display_width(std::string_view text);

/// `text` without anything that drives a terminal: control characters and bytes that
/// are not UTF-8 become U+FFFD, line breaks and tabs become spaces.
std::string printable(std::string_view text);

/// As much of `text`, made printable, as `width` columns hold; what is cut ends in "...". `width` is 4 or more.
std::string cut_to_width(std::string_view text, std::size_t width);

/// `text` with spaces after (before) it up to `width` columns; longer texts stay whole.
std::string padded_right(std::string_view text, std::size_t width);
std::string padded_left(std::string_view text, std::size_t width);

}  // namespace insideline::reports
