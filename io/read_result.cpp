#include "io/read_result.hpp"

#include <fmt/format.h>

namespace insideline::io {
namespace {

std::string error_text(const Place& place, std::string_view message) {
  if (place.excerpt.empty()) return fmt::format("{}: {}", to_string(place), message);
  return fmt::format("{}: {}\n  {}\n  {:>{}}", to_string(place), message, place.excerpt, '^', place.caret + 1);
}

}  // namespace

std::string to_string(const Warning& warning) {
  return fmt::format("{}: {}", to_string(warning.place), warning.message);
}

ReadError::ReadError(Place place, std::string_view message)
    : std::runtime_error(error_text(place, message)), place_(std::move(place)) {}

}  // namespace insideline::io
