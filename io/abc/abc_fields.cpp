#include "io/abc/abc_fields.hpp"

#include "analyzer/shortened.hpp"
#include "io/changes/chart_headers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>

namespace insideline::io {
namespace {

std::optional<int> abc_number(std::string_view text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string_view stripped_of_blanks(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// "3/8" in whole notes; none for anything else, for nothing and for more than 64 of them.
std::optional<Beats> abc_fraction(std::string_view text) {
  const auto slash = text.find('/');
  const auto above = abc_number(stripped_of_blanks(text.substr(0, slash)));
  const auto below =
      slash == std::string_view::npos ? std::optional(1) : abc_number(stripped_of_blanks(text.substr(slash + 1)));
  constexpr int most = 1024;
  if (!above || !below || *above < 1 || *above > most || *below < 1 || *below > most) return std::nullopt;
  return Beats(*above, *below);
}

/// "2+3+2" as 7.
std::optional<int> sum_of_numbers(std::string_view text) {
  int sum = 0;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find('+', at), text.size());
    const auto number = abc_number(stripped_of_blanks(text.substr(at, end - at)));
    if (!number || *number < 1 || *number > 64) return std::nullopt;
    sum += *number;
    if (sum > 64) return std::nullopt;
    at = end + 1;
  }
  return sum;
}

}  // namespace

std::optional<Meter> read_abc_meter(const AbcText& source, const AbcLine& value) {
  if (value.text.empty() || value.text == "none") return std::nullopt;
  if (const auto plain = parse_meter(value.text)) return plain;
  std::string text(value.text);
  std::erase_if(text, [](char c) { return c == '(' || c == ')' || c == ' '; });
  const auto slash = text.find('/');
  const auto beats = sum_of_numbers(std::string_view(text).substr(0, slash));
  const auto meter =
      beats && slash != std::string::npos ? parse_meter(fmt::format("{}{}", *beats, text.substr(slash))) : std::nullopt;
  if (!meter)
    refuse(source, value.offset_bytes,
           fmt::format("\"{}\" is not a meter; write M:4/4, M:6/8, M:C, M:C| or M:none", shortened(value.text)));
  return meter;
}

Beats read_abc_unit(const AbcText& source, const AbcLine& value) {
  const auto length = abc_fraction(value.text);
  if (!length)
    refuse(source, value.offset_bytes,
           fmt::format("\"{}\" is not a unit note length; write L:1/8 or L:1/4", shortened(value.text)));
  return *length * Beats(4);
}

std::optional<double> read_abc_tempo(const AbcText& source, const AbcLine& value, const Beats& unit) {
  std::string text(value.text);
  for (auto open = text.find('"'); open != std::string::npos; open = text.find('"')) {
    const auto close = text.find('"', open + 1);
    text.erase(open, close == std::string::npos ? close : close - open + 1);
  }
  const std::string_view tempo = stripped_of_blanks(text);
  if (tempo.empty()) return std::nullopt;
  const auto equals = tempo.find('=');
  const auto count = abc_number(stripped_of_blanks(tempo.substr(equals == std::string_view::npos ? 0 : equals + 1)));
  Beats length;
  bool readable = count && *count > 0 && *count <= 2000;
  if (equals == std::string_view::npos || !readable) {
    length = unit;
  } else {
    const std::string_view lengths = tempo.substr(0, equals);
    for (std::size_t at = lengths.find_first_not_of(' '); at < lengths.size();) {
      const std::size_t end = std::min(lengths.find(' ', at), lengths.size());
      const std::string_view word = lengths.substr(at, end - at);
      const auto part = word == "C" || word == "c" ? std::optional(unit / Beats(4)) : abc_fraction(word);
      readable = readable && part.has_value();
      length += part.value_or(Beats{}) * Beats(4);
      at = lengths.find_first_not_of(' ', end);
    }
  }
  if (!readable || length == Beats{})
    refuse(source, value.offset_bytes, fmt::format("\"{}\" is not a tempo; write Q:1/4=120", shortened(value.text)));
  return to_double(length) * *count;
}

Beats usual_abc_unit(const std::optional<Meter>& meter) {
  const bool short_bar = meter && bar_length(*meter) < Beats(3);
  return short_bar ? Beats(1, 4) : Beats(1, 2);
}

}  // namespace insideline::io
