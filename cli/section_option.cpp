#include "cli/section_option.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace insideline::cli {
namespace {

std::optional<int> parsed_number(std::string_view digits) {
  constexpr std::size_t most_digits = 6;
  if (digits.empty() || digits.size() > most_digits) return std::nullopt;
  int number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (error != std::errc{} || end != digits.data() + digits.size() || number < 0) return std::nullopt;
  return number;
}

/// The number behind `word`, with or without a space between.
std::optional<Section> parsed_named(std::string_view text, std::string_view word, SectionKind kind) {
  if (!text.starts_with(word)) return std::nullopt;
  text.remove_prefix(word.size());
  if (text.starts_with(' ')) text.remove_prefix(1);
  const auto number = parsed_number(text);
  if (!number || *number < 1) return std::nullopt;
  return Section{.kind = kind, .first = *number, .last = *number};
}

}  // namespace

std::optional<Section> parsed_section(std::string_view text) {
  if (const auto chorus = parsed_named(text, "chorus", SectionKind::chorus)) return chorus;
  if (const auto phrase = parsed_named(text, "phrase", SectionKind::phrase)) return phrase;
  const std::size_t dash = std::min(text.find('-'), text.size());
  const auto first = parsed_number(text.substr(0, dash));
  const auto last = dash == text.size() ? first : parsed_number(text.substr(dash + 1));
  if (!first || !last || *first > *last) return std::nullopt;
  return Section{.kind = SectionKind::bars, .first = *first, .last = *last};
}

std::string name_of(const Section& section) {
  switch (section.kind) {
    case SectionKind::bars:
      if (section.first == section.last) return fmt::format("bar {}", section.first);
      return fmt::format("bars {} to {}", section.first, section.last);
    case SectionKind::chorus: return fmt::format("chorus {}", section.first);
    case SectionKind::phrase: return fmt::format("phrase {}", section.first);
  }
  return {};
}

std::string not_a_section(const std::string& text) {
  if (parsed_section(text)) return {};
  return "'" + text + "' names no part of a solo; write bars as 9-16 or 9, or 'chorus 2', or 'phrase 3'";
}

}  // namespace insideline::cli
