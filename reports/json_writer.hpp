// JSON as text that a person can read and `diff` can compare, written in one pass: each member of the document on a
// line of its own, each element of its lists of objects or texts likewise, and everything deeper on one line.
#pragma once

#include "analyzer/measures/results.hpp"

#include <array>
#include <charconv>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <ranges>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace insideline::reports {

enum class JsonLayout : std::uint8_t {
  lines,   ///< for people
  compact  ///< for a script: nothing that need not be there
};

/// Promise: what was opened is closed, and a comma stands between two neighbours and nowhere else. The document is one
/// object, open until `finished`; its members, and those of each object, are written in order.
class JsonWriter {
 public:
  explicit JsonWriter(JsonLayout layout = JsonLayout::lines);

  /// A number (rounded to six places, so that the last bits of a sum never show), a truth, a text, a share as
  /// { "count": 3, "of": 7 }, a list of such, null for what is not there; anything else by its `to_string`.
  template <typename Value>
  void member(std::string_view name, const Value& value) {
    key(name);
    add(value);
  }
  /// As an element of the list that is open.
  template <typename Value>
  void add(const Value& value);

  /// `fill` writes the members.
  template <std::invocable Fill>
  void object(const Fill& fill) {
    open('{');
    fill();
    close('}');
  }
  template <std::invocable Fill>
  void object(std::string_view name, const Fill& fill) {
    key(name);
    object(fill);
  }

  /// `fill` adds the elements.
  template <std::invocable Fill>
  void list(const Fill& fill) {
    open('[');
    fill();
    close(']');
  }
  template <std::invocable Fill>
  void list(std::string_view name, const Fill& fill) {
    key(name);
    list(fill);
  }
  /// `each` adds one element.
  template <std::ranges::range Range, typename Each>
  void list(std::string_view name, const Range& range, const Each& each) {
    list(name, [&] {
      for (const auto& element : range) each(element);
    });
  }

  /// The document. Bytes in it that were not UTF-8 have become U+FFFD.
  [[nodiscard]] std::string finished() &&;

 private:
  struct Level {
    bool is_object = true;
    bool is_empty = true;
    bool on_lines = false;
  };

  void open(char bracket);
  void close(char bracket);
  void key(std::string_view name);
  void begin_value(bool wants_lines);
  void begin_member(bool wants_lines);
  void add_null();
  void add_truth(bool value);
  template <std::integral Whole>
  void add_whole(Whole value) {
    begin_value(false);
    std::array<char, 24> digits{};
    text_.append(digits.data(), std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr);
  }
  void add_number(double value);
  void add_text(std::string_view text);
  void append_quoted(std::string_view text);

  JsonLayout layout_;
  std::string text_;
  std::vector<Level> levels_;
};

namespace json_values {

template <typename Value>
constexpr bool is_optional = false;
template <typename Value>
constexpr bool is_optional<std::optional<Value>> = true;

}  // namespace json_values

template <typename Value>
void JsonWriter::add(const Value& value) {
  if constexpr (std::is_same_v<Value, std::nullptr_t>) {
    add_null();
  } else if constexpr (std::is_same_v<Value, bool>) {
    add_truth(value);
  } else if constexpr (std::is_integral_v<Value>) {
    add_whole(value);
  } else if constexpr (std::is_floating_point_v<Value>) {
    add_number(value);
  } else if constexpr (std::is_convertible_v<Value, std::string_view>) {
    add_text(value);
  } else if constexpr (json_values::is_optional<Value>) {
    value ? add(*value) : add_null();
  } else if constexpr (std::is_same_v<Value, Share>) {
    object([&] {
      member("count", value.count);
      member("of", value.of);
    });
  } else if constexpr (std::ranges::range<Value>) {
    list([&] {
      for (const auto& element : value) add(element);
    });
  } else {
    add_text(to_string(value));
  }
}

}  // namespace insideline::reports
