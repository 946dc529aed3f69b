#include "io/musicxml/xml_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace insideline::io {
namespace {

constexpr std::string_view blanks = " \t\r\n";

struct Character {
  std::uint32_t code_point = 0;
  std::size_t bytes = 1;
};

/// The character at the front of `text`, which is UTF-8 and not empty.
Character first_character(std::string_view text) {
  const auto byte = [&](std::size_t i) -> std::uint32_t { return static_cast<unsigned char>(text[i]); };
  const std::size_t length = byte(0) < 0xC0U ? 1 : byte(0) < 0xE0U ? 2 : byte(0) < 0xF0U ? 3 : 4;
  if (length == 1 || length > text.size()) return {byte(0), 1};
  std::uint32_t code_point = byte(0) & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) code_point = (code_point << 6U) | (byte(i) & 0x3FU);
  return {code_point, length};
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string xml;
  while (!text.empty()) {
    const Character character = first_character(text);
    switch (character.code_point) {
      case '&': xml += "&amp;"; break;
      case '<': xml += "&lt;"; break;
      case '>': xml += "&gt;"; break;
      case '"': xml += "&quot;"; break;
      default:
        if (character.code_point < 0x20U)
          xml += ' ';
        else if (character.code_point < 0x7FU)
          xml += static_cast<char>(character.code_point);
        else
          xml += fmt::format("&#{};", character.code_point);
    }
    text.remove_prefix(character.bytes);
  }
  return xml;
}

std::string_view attribute_of(std::string_view tag, std::string_view name) {
  for (std::size_t open = tag.find_first_of("\"'"); open != std::string_view::npos;) {
    const std::size_t close = tag.find(tag[open], open + 1);
    if (close == std::string_view::npos) return {};
    const std::size_t equals = tag.rfind('=', open);
    const std::string_view before = tag.substr(0, std::min(equals, tag.size()));
    const std::string_view word = before.substr(0, before.find_last_not_of(blanks) + 1);
    if (word.substr(word.find_last_of(blanks) + 1) == name) return tag.substr(open + 1, close - open - 1);
    open = tag.find_first_of("\"'", close + 1);
  }
  return {};
}

std::string_view blank_before(std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, offset);
  return before.substr(before.find_last_not_of(blanks) + 1);
}

}  // namespace insideline::io
