#include "io/database/json_rows.hpp"

#include <array>

namespace insideline::io {
namespace {

void append_escaped(std::string& text, char letter) {
  if (letter == '"' || letter == '\\')
    text.append({'\\', letter});
  else if (static_cast<unsigned char>(letter) < ' ')
    fmt::format_to(std::back_inserter(text), "\\u{:04x}", static_cast<unsigned char>(letter));
  else
    text += letter;
}

}  // namespace

JsonRow& JsonRow::add_bare(std::string_view value) {
  if (text_.back() != '[') text_ += ',';
  text_ += value;
  return *this;
}

JsonRow& JsonRow::add(std::string_view words) {
  add_bare("\"");
  for (const char letter : words) append_escaped(text_, letter);
  text_ += '"';
  return *this;
}

JsonRow& JsonRow::add(double number) {
  constexpr double largest_short = 1e6;
  const bool is_short = number > -largest_short && number < largest_short;
  if (is_short && number == static_cast<int>(number)) return add(static_cast<int>(number));
  constexpr std::size_t most_digits = 32;
  std::array<char, most_digits> digits{};
  const char* end = fmt::format_to(digits.data(), "{}", number);
  return add_bare({digits.data(), static_cast<std::size_t>(end - digits.data())});
}

}  // namespace insideline::io
