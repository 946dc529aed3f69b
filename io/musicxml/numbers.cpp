#include "io/musicxml/numbers.hpp"

#include <algorithm>
#include <charconv>
#include <cstdint>

namespace insideline::io {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\t' || c == '\r'; }

template <typename Number>
std::optional<Number> parse_whole(std::string_view text) {
  if (text.starts_with('+') && !text.starts_with("+-")) text.remove_prefix(1);
  Number value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// Most numbers in a score are a digit or two: no need to call on anybody.
std::optional<int> small_number(std::string_view text) {
  const auto digit = [&](std::size_t i) { return text[i] - '0'; };
  const auto is_digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  if (text.size() == 1 && is_digit(0)) return digit(0);
  if (text.size() != 2 || !is_digit(1)) return std::nullopt;
  if (text[0] == '-') return -digit(1);
  return is_digit(0) ? std::optional(10 * digit(0) + digit(1)) : std::nullopt;
}

bool all_digits(std::string_view text) { return text.find_first_not_of("0123456789") == std::string_view::npos; }

}  // namespace

std::string_view stripped(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

std::optional<int> parse_int(std::string_view text) {
  if (const auto small = small_number(text)) return small;
  return parse_whole<int>(stripped(text));
}

std::optional<Beats> parse_decimal(std::string_view text) {
  constexpr std::int64_t largest = 1'000'000'000'000;
  constexpr std::size_t most_places = 9;
  if (const auto small = small_number(text)) return Beats(*small);
  text = stripped(text);
  const std::size_t point = text.find('.');
  if (point == std::string_view::npos) {
    const auto value = parse_whole<std::int64_t>(text);
    if (!value || *value <= -largest || *value >= largest) return std::nullopt;
    return Beats(*value);
  }
  const bool negative = text.starts_with('-');
  const std::string_view whole = text.substr(negative ? 1 : 0, point - (negative ? 1 : 0));
  std::string_view places = text.substr(point + 1);
  while (places.ends_with('0')) places.remove_suffix(1);
  if (whole.size() + text.size() - point < 2 || !all_digits(whole) || !all_digits(places)) return std::nullopt;
  if (places.size() > most_places) return std::nullopt;
  const auto units = whole.empty() ? std::optional<std::int64_t>(0) : parse_whole<std::int64_t>(whole);
  const auto parts = places.empty() ? std::optional<std::int64_t>(0) : parse_whole<std::int64_t>(places);
  if (!units || !parts || *units >= largest) return std::nullopt;
  std::int64_t scale = 1;
  for (std::size_t i = 0; i < places.size(); ++i) scale *= 10;
  const Beats value = Beats(*units) + Beats(*parts, scale);
  return negative ? -value : value;
}

std::vector<int> passes_in(std::string_view text) {
  constexpr int most_passes = 100;
  std::vector<int> passes;
  bool range = false;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = std::min(text.find_first_not_of("0123456789", i), text.size());
    if (end == i) {
      if (text[i] == '-') range = !passes.empty();
      ++i;
      continue;
    }
    const int number = parse_int(text.substr(i, end - i)).value_or(0);
    i = end;
    if (number < 1 || number > most_passes) continue;
    for (int between = range ? passes.back() + 1 : number; between < number; ++between) passes.push_back(between);
    passes.push_back(number);
    range = false;
  }
  return passes;
}

}  // namespace insideline::io
