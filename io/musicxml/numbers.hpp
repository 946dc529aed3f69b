// Numbers as MusicXML writes them: the whole trimmed text or nothing.
#pragma once

#include "analyzer/model/beats.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace insideline::io {

std::string_view stripped(std::string_view text);
/// The same; many texts in a score are one letter.
inline std::string_view stripped(const char* text) {
  return *text > ' ' && text[1] == '\0' ? std::string_view(text, 1) : stripped(std::string_view(text));
}

/// "12", "-3", "+2". None for "12x", "", 99999999999.
std::optional<int> parse_int(std::string_view text);
/// The same; most numbers in a score are one digit.
inline std::optional<int> parse_int(const char* text) {
  const char* const digit = *text == '-' ? text + 1 : text;
  if (*digit < '0' || *digit > '9' || digit[1] != '\0') return parse_int(std::string_view(text));
  return digit == text ? *digit - '0' : '0' - *digit;
}

/// A decimal, exactly: "1", "0.5", "-2.25", ".5". None for anything else, for more than nine
/// places, and for a million million or more on either side of zero.
std::optional<Beats> parse_decimal(std::string_view text);

/// Which times through a repeat: "1", "1,2", "1. 2.", "1-3", from 1 to 100. Blank is none.
std::vector<int> passes_in(std::string_view text);

}  // namespace insideline::io
