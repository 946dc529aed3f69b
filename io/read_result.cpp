#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace insideline::io {
namespace {

/// A line break in a name or in what was found would look like another message.
std::string on_one_line(std::string text) {
  std::ranges::replace_if(
      text, [](char letter) { return letter == '\n' || letter == '\r' || letter == '\t'; }, ' ');
  return text;
}

std::string error_text(const Place& place, std::string_view message) {
  const std::string text = on_one_line(fmt::format("{}: {}", to_string(place), message));
  if (place.excerpt.empty()) return text;
  return fmt::format("{}\n  {}\n  {:>{}}", text, place.excerpt, '^', place.caret + 1);
}

}  // namespace

std::string to_string(const Warning& warning) {
  return fmt::format("{}: {}", to_string(warning.place), warning.message);
}

ReadError::ReadError(Place place, std::string_view message)
    : std::runtime_error(error_text(place, message)), place_(std::move(place)) {}

}  // namespace insideline::io
