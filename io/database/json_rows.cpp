#include "io/database/json_rows.hpp"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>

namespace insideline::io {
namespace {

bool is_plain(char letter) { return static_cast<unsigned char>(letter) >= ' ' && letter != '"' && letter != '\\'; }

}  // namespace

JsonRow& JsonRow::add_bare(std::string_view value) {
  if (text_.back() != '[') text_ += ',';
  text_ += value;
  return *this;
}

JsonRow& JsonRow::add(std::string_view words) {
  add_bare("\"");
  for (auto letter = words.begin(); letter != words.end();) {
    const auto end = std::find_if_not(letter, words.end(), is_plain);
    text_.append(letter, end);
    if (end == words.end()) break;
    fmt::format_to(std::back_inserter(text_), "\\u{:04x}", static_cast<unsigned char>(*end));
    letter = end + 1;
  }
  text_ += '"';
  return *this;
}

JsonRow& JsonRow::add(int number) { return add_digits(number); }
JsonRow& JsonRow::add(std::size_t number) { return add_digits(number); }

JsonRow& JsonRow::add(double number) {
  constexpr double largest = 1e6;  // of the whole numbers that are quickly written
  if (number > -largest && number < largest && number == static_cast<int>(number)) return add(static_cast<int>(number));
  return add_digits(number);
}

template <typename Number>
JsonRow& JsonRow::add_digits(Number number) {
  constexpr std::size_t most_digits = 32;
  std::array<char, most_digits> digits{};
  const char* end = fmt::format_to(digits.data(), FMT_COMPILE("{}"), number);
  return add_bare({digits.data(), static_cast<std::size_t>(end - digits.data())});
}

}  // namespace insideline::io
