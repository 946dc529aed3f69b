#include "io/database/json_rows.hpp"

#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
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
    text_ += std::string_view(letter, end);
    if (end == words.end()) break;
    fmt::format_to(std::back_inserter(text_), "\\u{:04x}", static_cast<unsigned char>(*end));
    letter = end + 1;
  }
  text_ += '"';
  return *this;
}

/// Most numbers are written together with the comma before them, in one step.
template <typename Write>
JsonRow& JsonRow::add_written(const Write& write) {
  constexpr std::size_t most = 40;
  std::array<char, most> value{','};
  const char* end = write(value.data() + 1, value.data() + value.size());
  const char* begin = value.data() + (text_.back() == '[' ? 1 : 0);
  text_.append(begin, static_cast<std::size_t>(end - begin));
  return *this;
}

JsonRow& JsonRow::add(int number) {
  return add_written([number](char* to, char* end) { return std::to_chars(to, end, number).ptr; });
}

JsonRow& JsonRow::add(std::size_t number) {
  return add_written([number](char* to, char* end) { return std::to_chars(to, end, number).ptr; });
}

/// Most are whole or have a few places; for any other the shortest digits are looked for.
JsonRow& JsonRow::add(double number) {
  constexpr double largest = 1e5;  // of those that are quickly written
  constexpr int parts = 10'000;
  const auto in_parts = number >= 0 && number < largest ? static_cast<int>(number * parts + 0.5) : -1;
  if (in_parts < 0 || in_parts / static_cast<double>(parts) != number)
    return add_written([number](char* to, char*) { return fmt::format_to(to, FMT_COMPILE("{}"), number); });
  return add_written([in_parts](char* to, char* end) {
    to = std::to_chars(to, end, in_parts / parts).ptr;
    int rest = in_parts % parts;
    if (rest > 0) *to++ = '.';
    for (int place = parts / 10; rest > 0; rest %= place, place /= 10) *to++ = static_cast<char>('0' + rest / place);
    return to;
  });
}

/// From behind the quotation mark up to the one that ends it, which is passed over.
std::string_view JsonRowReader::words() {
  const std::size_t begin = at_;
  while (at_ < text_.size() && text_[at_] != '"') at_ += text_[at_] == '\\' ? 2 : 1;
  at_ = std::min(at_, text_.size());
  return text_.substr(begin, at_++ - begin);
}

bool JsonRowReader::next() {
  const std::size_t begin = std::min(text_.find_first_of("\"[", at_), text_.size());
  if (begin == text_.size()) return false;
  at_ = begin + 1;
  name_ = {};
  if (text_[begin] == '"') {
    name_ = words();
    at_ += 2;  // :[
  }
  for (count_ = 0; count_ < most_values && at_ < text_.size(); ++count_) {
    const std::size_t first = at_;
    if (text_[first] == '"') {
      ++at_;
      values_.at(count_) = words();
    } else {
      while (at_ < text_.size() && text_[at_] != ',' && text_[at_] != ']') ++at_;
      values_.at(count_) = text_.substr(first, at_ - first);
    }
    if (at_ >= text_.size()) return false;
    if (text_[at_++] != ']') continue;
    ++count_;
    return true;
  }
  return false;
}

std::string_view JsonRowReader::value(std::size_t column) const {
  return column < count_ ? values_.at(column) : std::string_view{};
}

std::optional<double> JsonRowReader::number(std::size_t column) const {
  const std::string_view digits = value(column);
  double number = 0.0;
  if (std::from_chars(digits.data(), digits.data() + digits.size(), number).ec != std::errc{}) return std::nullopt;
  return number;
}

}  // namespace insideline::io
