// Many rows as one text in JSON, an array of arrays, or an object of arrays where each has a name. To SQLite a solo's
// notes are one value then: it stores and copies them without taking each apart, and its views show them as rows again.
#pragma once

#include <array>
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
  template <typename Write>
  JsonRow& add_written(const Write& write);

  std::string& text_;
};

/// A row for each of `entries`; `fill(row, entry)` adds its values.
template <typename Entries, typename Fill>
std::string json_rows(const Entries& entries, const Fill& fill) {
  constexpr std::size_t bytes_of_a_row = 48;  // of a note, more or less
  std::string text = "[";
  text.reserve(std::size(entries) * bytes_of_a_row + 2);
  for (const auto& entry : entries) {
    text += text.size() == 1 ? "[" : ",[";
    fill(JsonRow(text), entry);
    text += ']';
  }
  return text += ']';
}

/// The same, each row under `name(entry)`, a plain word.
template <typename Entries, typename Name, typename Fill>
std::string named_json_rows(const Entries& entries, const Name& name, const Fill& fill) {
  std::string text = "{";
  for (const auto& entry : entries) {
    text.append(text.size() == 1 ? "\"" : ",\"").append(name(entry)).append("\":[");
    fill(JsonRow(text), entry);
    text += ']';
  }
  return text += '}';
}

/// Goes through such a text, which must outlive it, row by row. A value is seen as it is written, words without their
/// quotation marks; nothing is undone, so this is for words that need no escape. What is no such text has no rows.
class JsonRowReader {
 public:
  explicit JsonRowReader(std::string_view text) : text_(text) {}

  bool next();                                                           ///< false after the last row
  [[nodiscard]] std::string_view name() const { return name_; }          ///< empty where rows have none
  [[nodiscard]] std::string_view value(std::size_t column) const;        ///< empty where the row has fewer
  [[nodiscard]] std::optional<double> number(std::size_t column) const;  ///< none where the value is none

 private:
  static constexpr std::size_t most_values = 12;

  std::string_view words();

  std::string_view text_;
  std::size_t at_ = 1;  ///< behind the bracket that opens all
  std::string_view name_;
  std::array<std::string_view, most_values> values_;
  std::size_t count_ = 0;
};

}  // namespace insideline::io
