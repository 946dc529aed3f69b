// Many rows as one text in JSON, an array of arrays. To SQLite a solo's notes are one value then: it stores and copies
// them without taking each apart, and its views show them as rows again.
#pragma once

#include <cstddef>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

namespace insideline::io {

/// The values of one row, given from left to right.
class JsonRow {
 public:
  explicit JsonRow(std::string& text) : text_(text) {}

  JsonRow& add(std::string_view words);
  /// Finite: JSON knows no other numbers.
  JsonRow& add(double number);
  JsonRow& add(int number);  ///< also yes and no, as 1 and 0
  JsonRow& add(std::size_t number);
  template <typename Value>
  JsonRow& add(const std::optional<Value>& value) {
    return value ? add(*value) : add_bare("null");
  }

 private:
  JsonRow& add_bare(std::string_view value);
  template <typename Number>
  JsonRow& add_digits(Number number);

  std::string& text_;
};

/// A row for each of `entries`; `fill(row, entry)` adds its values.
template <typename Entries, typename Fill>
std::string json_rows(const Entries& entries, const Fill& fill) {
  constexpr std::size_t bytes_of_a_row = 80;  // of a note, more or less
  std::string text = "[";
  text.reserve(std::size(entries) * bytes_of_a_row + 2);
  for (const auto& entry : entries) {
    text += text.size() == 1 ? "[" : ",[";
    fill(JsonRow(text), entry);
    text += ']';
  }
  return text += ']';
}

}  // namespace insideline::io
