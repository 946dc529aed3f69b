#include "cli/section_option.hpp"

#include "analyzer/model/sections.hpp"
#include "reports/text/display_width.hpp"

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
  const bool meant_as_bars = !text.empty() && (text.front() == '-' || (text.front() >= '0' && text.front() <= '9'));
  const bool is_blank = text.find_first_not_of(' ') == std::string_view::npos;
  if (!meant_as_bars && !is_blank) return Section{.kind = SectionKind::named, .name = std::string(text)};
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
    case SectionKind::named: return "section " + reports::printable(section.name);
  }
  return {};
}

std::string no_such_section(const std::string& wanted, const Harmony& harmony) {
  const std::string name = reports::printable(wanted);
  if (harmony.sections.empty())
    return fmt::format(
        "it has no section \"{}\", for neither the changes nor the score letter any; write [A] before a bar of a "
        "changes "
        "file, or give bars as 9-16, 'chorus 2' or 'phrase 3'",
        name);
  return fmt::format("it has no section \"{}\"; its sections are {}{}", name,
                     reports::printable(names_of(harmony.sections)), harmony.choruses > 1 ? ", in each chorus" : "");
}

std::string not_a_section(const std::string& text) {
  if (parsed_section(text)) return {};
  return "'" + text +
         "' names no part of a solo; write bars as 9-16 or 9, 'chorus 2', 'phrase 3', or the name of a section, such "
         "as B";
}

}  // namespace insideline::cli
