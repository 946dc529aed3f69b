#include "io/changes/typed_habits.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/small_letters.hpp"
#include "io/changes/chart_headers.hpp"
#include "io/changes/typed_signs.hpp"

#include <algorithm>
#include <cctype>

namespace insideline::io {
namespace {

constexpr std::size_t longest_typed_word = 200;  // bytes

bool is_all_digits(std::string_view word) {
  return !word.empty() && word.find_first_not_of("0123456789") == std::string_view::npos;
}

std::vector<std::string_view> split_at(std::string_view text, std::string_view between) {
  std::vector<std::string_view> pieces;
  for (std::size_t at = text.find_first_not_of(between); at != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(between, at), text.size());
    pieces.push_back(text.substr(at, end - at));
    at = text.find_first_not_of(between, end);
  }
  return pieces;
}

/// The chords of a word that is none as it stands; the word alone where taking it apart makes none either.
std::vector<std::string_view> chords_in(std::string_view word) {
  if (word.find_first_of(",()") == std::string_view::npos || reads_as_chord(word)) return {word};
  std::string_view bare = word;
  while (!bare.empty() && (bare.back() == ',' || bare.front() == '(')) {
    if (bare.back() == ',') bare.remove_suffix(1);
    if (!bare.empty() && bare.front() == '(') bare.remove_prefix(1);
  }
  while (!bare.empty() && bare.back() == ')' && !reads_as_bar_sign(bare)) bare.remove_suffix(1);
  if (bare.empty() || reads_as_bar_sign(bare))
    return bare.empty() ? std::vector<std::string_view>{} : std::vector{bare};
  const std::vector<std::string_view> pieces = split_at(bare, " ,");
  return std::ranges::all_of(pieces, reads_as_bar_sign) ? pieces : std::vector{word};
}

bool has_bars(const ChartLine& line) { return !is_header(line) && line.text.find('|') != std::string_view::npos; }

/// A line above the bars that says what the tune is, or how or by whom it is played.
bool is_line_of_words(const ChartLine& line) {
  constexpr std::size_t longest_line = 200;  // bytes
  if (is_header(line) || section_name(line) || is_section_word(line.text) || line.text.size() > longest_line ||
      line.text.find_first_of("|[") != std::string_view::npos)
    return false;
  const std::vector<std::string_view> words = split_at(line.text, " ,()");
  const auto chords = std::ranges::count_if(words, reads_as_bar_sign);
  return 2 * static_cast<std::size_t>(chords) < words.size();
}

/// Three letters and more, and nothing else.
bool is_plain_word(std::string_view word) {
  constexpr std::size_t shortest = 3;
  return word.size() >= shortest && std::ranges::all_of(word, [](char c) {
           const auto byte = static_cast<unsigned char>(c);
           return std::isalpha(byte) != 0 || byte >= 0x80U;
         });
}

}  // namespace

bool reads_as_chord(std::string_view word) {
  if (word.size() > longest_typed_word) return false;
  const std::string typed = in_one_word(word);
  return parse_chord_symbol(typed) || parse_chord_symbol(typed.substr(0, typed.find_last_not_of("./") + 1));
}

bool reads_as_bar_sign(std::string_view word) {
  if (is_repeated_bar(word) || is_beats(word)) return true;
  const auto capital = with_capital_root(word);
  return reads_as_chord(word) || (capital && reads_as_chord(*capital));
}

TextAbove take_text_above(std::vector<ChartLine>& lines) {
  TextAbove text;
  if (std::ranges::none_of(lines, has_bars)) return text;
  const auto first_music =
      std::ranges::find_if(lines, [](const ChartLine& line) { return !is_header(line) && !is_line_of_words(line); });
  std::vector<ChartLine> rest;
  for (auto line = lines.begin(); line != first_music; ++line) {
    if (!is_line_of_words(*line))
      rest.push_back(*line);
    else if (text.title)
      text.others.push_back(*line);
    else
      text.title = *line;
  }
  rest.insert(rest.end(), first_music, lines.end());
  lines = std::move(rest);
  return text;
}

bool is_prose(std::string_view text) {
  if (text.find('|') != std::string_view::npos) return false;
  return std::ranges::any_of(split_at(text, " ,.;:!?()"),
                             [](std::string_view word) { return is_plain_word(word) && !reads_as_bar_sign(word); });
}

std::optional<std::string_view> section_label(const ChartLine& line, const std::vector<std::string_view>& known) {
  constexpr std::size_t longest_label = 40;  // bytes
  const auto colon = line.text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon > longest_label) return std::nullopt;
  const std::string_view label = trimmed(line.text.substr(0, colon));
  const std::string_view rest = line.text.substr(colon + 1);
  const bool bars = rest.empty() || (rest.front() == ' ' && rest.find('|') != std::string_view::npos);
  const std::string lower = in_small_letters(label);
  const bool is_name =
      std::isalpha(static_cast<unsigned char>(label.front())) != 0 && std::ranges::all_of(label, [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == ' ' || c == '-' || c == '\'';
      });
  if (!bars || !is_name || std::ranges::find(known, std::string_view(lower)) != known.end()) return std::nullopt;
  return label;
}

std::vector<Sign> plain_words(const ChartText& chart, const std::vector<Sign>& words, int bar) {
  std::vector<Sign> plain;
  for (const Sign& word : words) {
    const bool apart = word.offset_bytes == 0 ||
                       std::string_view(" \n").find(chart.text[word.offset_bytes - 1]) != std::string_view::npos;
    const bool own_number = is_all_digits(word.text) && word.text == std::to_string(bar);
    const bool no_ending = apart || chart.text.find(":|") == std::string::npos;
    if (&word == &words.front() && words.size() > 1 && no_ending && own_number) continue;
    for (const std::string_view chord : chords_in(word.text))
      plain.push_back(
          {SignKind::word, chord, word.offset_bytes + static_cast<std::size_t>(chord.data() - word.text.data())});
  }
  return plain;
}

bool names_a_chord(std::string_view section) {
  const bool numbered = section.size() == 2 && std::isdigit(static_cast<unsigned char>(section[1])) != 0;
  return section.size() > 1 && !numbered && reads_as_chord(section);
}

int brackets_left_open(std::string_view word) {
  return static_cast<int>(std::ranges::count(word, '(') - std::ranges::count(word, ')'));
}

std::optional<std::string> with_capital_root(std::string_view word) {
  if (word.empty() || word.front() < 'a' || word.front() > 'g' || reads_as_chord(word)) return std::nullopt;
  std::string capital(word);
  capital.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(capital.front())));
  return capital;
}

std::string in_one_word(std::string_view word) {
  if (word.starts_with("No ") || word.starts_with("no ")) return std::string(word);  // "No Chord"
  std::string typed;
  int depth = 0;
  for (const char character : word) {
    if (character == '(') ++depth;
    if (character == ')') --depth;
    if (character != ' ' || depth > 0) typed += character;
  }
  return typed;
}

bool is_beats(std::string_view word) {
  const bool alike = word.find_first_not_of(word.front()) == std::string_view::npos;
  return is_hold(word) || (alike && (word.front() == '.' || word.front() == '/'));
}

bool is_repeated_bar(std::string_view word) { return word == "%" || word == "./." || word == "\U0001D10E"; }

bool is_hold(std::string_view word) {
  return word == "x" || word == "-" || word == "\u2013" || word == "\u2014" || word == "\u2212";
}

}  // namespace insideline::io
