#include "reports/text/display_width.hpp"

#include "analyzer/utf8.hpp"

#include <algorithm>
#include <iterator>

namespace insideline::reports {
namespace {

struct Range {
  char32_t first;
  char32_t last;
};

// Both in order.
constexpr Range without_width[] = {
    {0x0300, 0x036F},   {0x0483, 0x0489},   {0x0591, 0x05BD},  {0x0610, 0x061A}, {0x064B, 0x065F}, {0x0900, 0x0902},
    {0x0E31, 0x0E31},   {0x0E34, 0x0E3A},   {0x0E47, 0x0E4E},  {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F},
    {0x202A, 0x202E},   {0x2060, 0x2064},   {0x20D0, 0x20F0},  {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF},
    {0x1D167, 0x1D169}, {0x1D17B, 0x1D182}, {0xE0100, 0xE01EF}};

constexpr Range of_double_width[] = {{0x1100, 0x115F},   {0x2E80, 0x303E},  {0x3041, 0x33FF}, {0x3400, 0x4DBF},
                                     {0x4E00, 0x9FFF},   {0xA000, 0xA4CF},  {0xAC00, 0xD7A3}, {0xF900, 0xFAFF},
                                     {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},  {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F},
                                     {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD}};

bool in_any(const char32_t character, const auto& ranges) {
  const auto* const range = std::ranges::lower_bound(ranges, character, {}, &Range::last);
  return range != std::end(ranges) && range->first <= character;
}

constexpr char32_t line_separator = 0x2028;
constexpr char32_t paragraph_separator = 0x2029;

bool is_control(char32_t character) {
  const bool turns_the_line =
      (character >= 0x202A && character <= 0x202E) || (character >= 0x2066 && character <= 0x2069);
  return character < 0x20 || (character >= 0x7F && character < 0xA0) || turns_the_line;
}

}  // namespace

std::string_view first_character(std::string_view text) {
  return text.substr(0, std::max<std::size_t>(utf8_length(text), 1));
}

std::size_t character_width(std::string_view character) {
  const char32_t value = code_point(character);
  if (value < without_width[0].first) return 1;  // Latin letters, which nearly every text is made of
  if (in_any(value, without_width)) return 0;
  return in_any(value, of_double_width) ? 2 : 1;
}

std::size_t display_width(std::string_view text) {
  const auto is_ascii = [](char character) { return (static_cast<unsigned char>(character) & 0x80U) == 0; };
  const auto* const rest = std::find_if_not(text.begin(), text.end(), is_ascii);
  auto width = static_cast<std::size_t>(rest - text.begin());  // of the ASCII at its front: nearly always all of it
  text.remove_prefix(width);
  while (!text.empty()) {
    const std::string_view character = first_character(text);
    width += character_width(character);
    text.remove_prefix(character.size());
  }
  return width;
}

std::string printable(std::string_view text) {
  const auto is_plain = [](char character) { return character >= ' ' && character <= '~'; };
  const auto* const rest = std::find_if_not(text.begin(), text.end(), is_plain);
  std::string result(text.begin(), rest);
  text.remove_prefix(result.size());
  while (!text.empty()) {
    const std::string_view character = first_character(text);
    const char32_t value = code_point(character);
    if (value == '\n' || value == '\r' || value == '\t' || value == line_separator || value == paragraph_separator)
      result += ' ';
    else if (is_control(value) || value == 0xFFFD)
      result += "\xEF\xBF\xBD";
    else
      result += character;
    text.remove_prefix(character.size());
  }
  return result;
}

std::string cut_to_width(std::string_view text, std::size_t width) {
  const std::string whole = printable(text);
  if (display_width(whole) <= width) return whole;
  constexpr std::string_view dots = "...";
  std::string kept;
  std::size_t used = dots.size();
  for (std::string_view rest = whole; !rest.empty();) {
    const std::string_view character = first_character(rest);
    used += character_width(character);
    if (used > width) break;
    kept += character;
    rest.remove_prefix(character.size());
  }
  return kept + std::string(dots);
}

std::string padded_right(std::string_view text, std::size_t width) {
  std::string result(text);
  return result.append(width - std::min(width, display_width(text)), ' ');
}

std::string padded_left(std::string_view text, std::size_t width) {
  return std::string(width - std::min(width, display_width(text)), ' ').append(text);
}

}  // namespace insideline::reports
