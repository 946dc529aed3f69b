#include "io/source_text.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

constexpr std::size_t longest_excerpt = 72;  // characters; fits a terminal with its indent

bool starts_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

int characters(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), starts_character));
}

/// Printable on one line: tabs and control bytes become spaces.
std::string one_line(std::string_view text) {
  std::string line(text);
  std::ranges::replace_if(
      line, [](char byte) { return static_cast<unsigned char>(byte) < 0x20U || byte == 0x7F; }, ' ');
  return line;
}

/// Moves `position` back to the start of a character.
std::size_t character_start(std::string_view text, std::size_t position) {
  while (position > 0 && position < text.size() && !starts_character(text[position])) --position;
  return position;
}

}  // namespace

Place place_of(std::string_view file) {
  return {.file = std::string(file), .line = 0, .column = 0, .excerpt = {}, .caret = 0};
}

Place place_in(std::string_view file, std::string_view text, std::size_t offset_bytes) {
  const std::size_t offset = std::min(offset_bytes, text.size());
  const std::string_view before = text.substr(0, offset);
  const std::size_t line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  const std::size_t line_end = std::min(text.find('\n', offset), text.size());
  const std::size_t half = longest_excerpt / 2;
  const std::size_t from = offset - line_start > half ? character_start(text, offset - half) : line_start;
  const std::size_t to = character_start(text, std::min(line_end, from + longest_excerpt));
  return {.file = std::string(file),
          .line = static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
          .column = characters(text.substr(line_start, offset - line_start)) + 1,
          .excerpt = one_line(text.substr(from, to - from)),
          .caret = characters(text.substr(from, offset - from))};
}

std::string to_string(const Place& place) {
  if (place.line == 0) return place.file;
  const std::string with_line = place.file + ':' + std::to_string(place.line);
  return place.column == 0 ? with_line : with_line + ':' + std::to_string(place.column);
}

}  // namespace insideline::io
