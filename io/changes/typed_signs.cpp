#include "io/changes/typed_signs.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/small_letters.hpp"
#include "io/changes/typed_habits.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <string>

namespace insideline::io {
namespace {

constexpr std::size_t longest_part = 40;  // bytes of a symbol
constexpr int most_passes = 99;           // of a repeat; more is a slip of the keyboard

bool is_number(std::string_view word) {
  return !word.empty() && word.find_first_not_of("0123456789") == std::string_view::npos;
}

bool is_times_sign(std::string_view word) { return word == "x" || word == "X" || word == "×"; }

Sign spanning(const ChartText& chart, const Sign& first, const Sign& last) {
  const std::size_t end = last.offset_bytes + last.text.size();
  return {SignKind::word, std::string_view(chart.text).substr(first.offset_bytes, end - first.offset_bytes),
          first.offset_bytes};
}

std::optional<Chord> chord_of(std::string_view word) {
  const std::string typed = with_capital_root(word).value_or(in_one_word(word));
  const auto reading = parse_chord_symbol(std::string_view(typed).substr(0, typed.find_last_not_of("./") + 1));
  return reading ? *reading : std::nullopt;
}

/// "b9" and the like: a chord in small letters, unless a number stands before it that it alters.
bool is_alteration(std::string_view word) {
  constexpr std::array alterations = {"b5", "b6", "b9", "b13"};
  return std::ranges::find(alterations, word) != alterations.end();
}

/// Whether `part` may go on with the symbol `before`. Beats are counted in small numbers, so that these need a word in
/// front that takes one: "sus 4".
bool may_go_on(std::string_view before, std::string_view part) {
  if (part.size() > longest_part || part == "%") return false;
  if (is_number(part) && part.size() == 1 && std::string_view("123458").find(part) != std::string_view::npos)
    return before.ends_with("sus") || before.ends_with("add") || before.ends_with("no") || before.ends_with("omit");
  if (is_alteration(part)) return before.find_first_of("679") != std::string_view::npos || before.ends_with("13");
  return is_hold(part) ? part != "x" : !reads_as_bar_sign(part);
}

/// How many of `words` from the first on make one symbol; 1 where the first stands for itself.
std::size_t parts_of_symbol(const std::vector<Sign>& words, std::size_t first) {
  constexpr std::size_t most_parts = 4;
  const std::string_view front = words[first].text;
  if (front.size() > longest_part) return 1;
  const bool no_chord_split = in_small_letters(front) == "n." || in_small_letters(front) == "no";
  const auto root = chord_of(front);
  if (!root && !no_chord_split) return 1;
  std::size_t parts = 1;
  std::string joined(front);
  for (std::size_t next = first + 1; next < std::min(words.size(), first + most_parts); ++next) {
    const std::string_view part = words[next].text;
    const bool ends_no_chord = no_chord_split && (in_small_letters(part) == "c." || in_small_letters(part) == "chord");
    if (!ends_no_chord && (!root || !may_go_on(joined, part))) break;
    joined += part;
    const auto whole = ends_no_chord ? std::nullopt : chord_of(joined);
    if (ends_no_chord || (whole && whole->root == root->root && !is_hold(part))) parts = next + 1 - first;
  }
  return parts;
}

std::optional<int> pass_number(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < 1 || value > most_passes) return std::nullopt;
  return value;
}

}  // namespace

std::optional<int> times_of(std::string_view word) {
  if (word.starts_with('(') && word.ends_with(')')) word = word.substr(1, word.size() - 2);
  for (const std::string_view sign : {"x", "X", "×", "times"}) {
    if (word.starts_with(sign)) return pass_number(trimmed(word.substr(sign.size())));
    if (word.ends_with(sign)) return pass_number(trimmed(word.substr(0, word.size() - sign.size())));
  }
  return std::nullopt;
}

std::vector<int> passes_of(std::string_view text) {
  std::vector<int> passes;
  constexpr std::string_view between = "[,.";
  for (std::size_t at = text.find_first_not_of(between); at != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(between, at), text.size());
    const std::string_view part = text.substr(at, end - at);
    const auto dash = part.find('-');
    const auto first = pass_number(part.substr(0, dash));
    const auto last = dash == std::string_view::npos ? first : pass_number(part.substr(dash + 1));
    if (!first || !last || *last < *first) return {};
    for (int pass = *first; pass <= *last; ++pass) passes.push_back(pass);
    at = text.find_first_not_of(between, end);
  }
  return passes;
}

bool is_section_word(std::string_view text) {
  constexpr std::array words = {"intro", "verse", "chorus",    "prechorus", "bridge", "refrain",
                                "outro", "vamp",  "interlude", "tag",       "head",   "solos"};
  return std::ranges::find(words, in_small_letters(text)) != words.end();
}

std::optional<FrontName> front_name(const ChartLine& line) {
  if (is_section_word(line.text)) return FrontName{line.text, line.text.size()};
  const std::size_t open = line.text.starts_with('(') ? 1 : 0;
  const std::size_t close = line.text.find(')');
  if (close == std::string_view::npos || close == open) return std::nullopt;
  const std::string_view name = trimmed(line.text.substr(open, close - open));
  const std::string_view rest = trimmed(line.text.substr(close + 1));
  const bool letter = name.size() == 1 && std::isalpha(static_cast<unsigned char>(name.front())) != 0;
  if (!letter && !(open == 1 && is_section_word(name))) return std::nullopt;
  if (!rest.empty() && !rest.starts_with('|')) return std::nullopt;
  return FrontName{name, close + 1};
}

std::vector<Sign> with_times_joined(const ChartText& chart, const std::vector<Sign>& signs) {
  std::vector<Sign> joined;
  for (std::size_t i = 0; i < signs.size(); ++i) {
    joined.push_back(signs[i]);
    if (i + 1 == signs.size() || signs[i].kind != SignKind::word || signs[i + 1].kind != SignKind::word) continue;
    const std::string_view next = signs[i + 1].text;
    const bool behind_repeat = i > 0 && signs[i - 1].kind == SignKind::bar_line && signs[i - 1].text.starts_with(':');
    const bool number_first = is_number(signs[i].text) && (is_times_sign(next) || next == "times") && behind_repeat;
    if (!number_first && !(is_times_sign(signs[i].text) && is_number(next))) continue;
    joined.back() = spanning(chart, signs[i], signs[i + 1]);
    ++i;
  }
  return joined;
}

std::vector<Sign> with_symbols_joined(const ChartText& chart, const std::vector<Sign>& words) {
  constexpr std::size_t most_parts_of_a_bar = 96;  // a bar of more is refused
  if (words.size() > most_parts_of_a_bar) return words;
  std::vector<Sign> joined;
  for (std::size_t i = 0; i < words.size();) {
    const std::size_t parts = parts_of_symbol(words, i);
    joined.push_back(parts == 1 ? words[i] : spanning(chart, words[i], words[i + parts - 1]));
    i += parts;
  }
  return joined;
}

std::optional<std::string_view> ending_number(std::string_view word) {
  constexpr std::size_t longest = 8;  // bytes
  if (word.empty() || word.size() > longest || std::isdigit(static_cast<unsigned char>(word.front())) == 0)
    return std::nullopt;
  for (const std::string_view ordinal : {"st", "nd", "rd", "th"})
    if (word.ends_with(ordinal) && is_number(word.substr(0, word.size() - ordinal.size())))
      return word.substr(0, word.size() - ordinal.size());
  return word.find_first_not_of("0123456789,-") == std::string_view::npos ? std::optional(word) : std::nullopt;
}

bool is_remark(const Sign& word) {
  constexpr std::size_t shortest = 5;  // letters
  if (!word.text.starts_with('(') || !word.text.ends_with(')')) return false;
  const std::string_view inner = word.text.substr(1, word.text.size() - 2);
  const bool letters = std::ranges::all_of(inner, [](unsigned char c) { return std::isalpha(c) != 0 || c == ' '; });
  return letters && inner.size() >= shortest && is_prose(inner) && inner.find("repeat") == std::string_view::npos &&
         inner.find("twice") == std::string_view::npos && inner.find("times") == std::string_view::npos;
}

}  // namespace insideline::io
