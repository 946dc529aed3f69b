// UTF-8 in texts that others have made. Source: Unicode 15, table 3-7, "Well-Formed UTF-8 Byte Sequences": no overlong
// forms, no surrogates, nothing above U+10FFFF.
#pragma once

#include <cstddef>
#include <string_view>

namespace insideline {

/// How many bytes the character at `position` takes; 0 where no character begins there. `position` is inside `text`.
inline std::size_t utf8_length(std::string_view text, std::size_t position = 0) {
  const auto byte_at = [&](std::size_t index) -> unsigned {
    return static_cast<unsigned char>(text[position + index]);
  };
  const unsigned lead = byte_at(0);
  if (lead < 0x80U) return 1;
  const std::size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
  if (lead < 0xC2U || lead > 0xF4U || text.size() - position < length) return 0;
  const unsigned lowest = lead == 0xE0U ? 0xA0U : lead == 0xF0U ? 0x90U : 0x80U;
  const unsigned highest = lead == 0xEDU ? 0x9FU : lead == 0xF4U ? 0x8FU : 0xBFU;
  if (byte_at(1) < lowest || byte_at(1) > highest) return 0;
  for (std::size_t i = 2; i < length; ++i)
    if ((byte_at(i) & 0xC0U) != 0x80U) return 0;
  return length;
}

/// The code point of one character, whole as `utf8_length` measures it; U+FFFD for a byte that is none.
inline char32_t code_point(std::string_view character) {
  const auto byte_at = [&](std::size_t index) -> unsigned { return static_cast<unsigned char>(character[index]); };
  if (byte_at(0) < 0x80U) return byte_at(0);
  if (character.size() == 1) return 0xFFFD;
  char32_t value = byte_at(0) & (0xFFU >> (character.size() + 1));
  for (std::size_t i = 1; i < character.size(); ++i) value = (value << 6U) | (byte_at(i) & 0x3FU);
  return value;
}

}  // namespace insideline
