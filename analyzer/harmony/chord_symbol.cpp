#include "analyzer/harmony/chord_symbol.hpp"

#include "analyzer/harmony/academic_label.hpp"
#include "analyzer/harmony/nearest_symbols.hpp"
#include "analyzer/harmony/symbol_grammar.hpp"
#include "analyzer/harmony/symbol_reading.hpp"
#include "analyzer/harmony/symbol_words.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>

#include <fmt/core.h>
#include <tl/expected.hpp>

namespace insideline {
namespace {

constexpr std::size_t longest_symbol_characters = 200;
constexpr std::size_t most_bytes_of_a_character = 4;

bool is_too_long(std::string_view symbol) {
  if (symbol.size() > longest_symbol_characters * most_bytes_of_a_character) return true;
  const auto is_first_byte = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; };
  return std::ranges::count_if(symbol, is_first_byte) > static_cast<std::ptrdiff_t>(longest_symbol_characters);
}

bool is_no_chord(std::string_view symbol) {
  constexpr std::array spellings = {"N.C.", "N.C", "NC",       "NC.",      "N",       "n.c.",
                                    "n.c",  "nc",  "No Chord", "No chord", "no chord"};
  return std::ranges::find(spellings, symbol) != spellings.end();
}

struct Parts {
  NoteName root;
  std::string_view body;
  std::size_t body_offset = 0;
  std::optional<NoteName> bass;
  bool root_in_lower_case = false;
};

/// The bass note that `text` is from its first byte to its last; a small letter is a note here.
std::optional<NoteName> whole_note(std::string_view text) {
  const std::string capital = with_capital(text);
  std::string_view rest = capital;
  constexpr int most = 4;  // the third of Cbbm is a note with three flats
  const auto note = take_symbol_note(rest, most);
  return rest.empty() ? note : std::nullopt;
}

/// Takes "/Bb" off the end of `body`. A slash before anything but a note name is left to the grammar (6/9, m/maj7,
/// 7/b9).
std::optional<NoteName> take_bass(std::string_view& body) {
  const auto slash = body.rfind('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto first = std::min(body.find_first_not_of(' ', slash + 1), body.size());
  const auto bass = whole_note(body.substr(first));
  if (bass) body = body.substr(0, slash);
  return bass;
}

tl::expected<Parts, UnreadableSymbol> parts_of(std::string_view symbol) {
  Parts parts;
  const std::string capital = with_capital(symbol);
  std::string_view rest = capital;
  const auto root = take_symbol_note(rest);
  if (!root) {
    const bool letter = capital.front() >= 'A' && capital.front() <= 'G';
    return unreadable(letter ? 1 : 0,
                      letter ? "found more than two accidentals after the root"
                             : fmt::format("found {} where a root, A to G, was expected", shown_front(symbol)));
  }
  parts.root = *root;
  parts.root_in_lower_case = capital.front() != symbol.front();
  parts.body_offset = symbol.size() - rest.size();
  parts.body = symbol.substr(parts.body_offset);
  parts.bass = take_bass(parts.body);
  while (parts.body.ends_with(' ')) parts.body.remove_suffix(1);
  return parts;
}

/// A small letter alone, or with a bare number, is minor to some writers and haste to others.
bool names_its_third(const std::vector<SymbolToken>& words) {
  return std::ranges::any_of(words, [](const SymbolToken& token) {
    return token.word == Word::major || token.word == Word::triangle || token.word == Word::minor ||
           token.word == Word::minus || token.word == Word::diminished || token.word == Word::half_diminished ||
           token.word == Word::augmented || token.word == Word::plus || token.word == Word::dominant ||
           token.word == Word::sus || token.word == Word::alt;
  });
}

/// Where a capital note letter follows a slash, says what can stand there.
UnreadableSymbol with_word_on_bass(UnreadableSymbol error, std::string_view symbol) {
  const std::size_t place = error.offset_bytes;
  const bool after_slash = place > 0 && place < symbol.size() && symbol[place - 1] == '/';
  if (after_slash && symbol[place] >= 'A' && symbol[place] <= 'G')
    error.message = "found more than a bass note after the slash, where only a bass note can stand";
  return error;
}

SymbolReading parse_everyday_symbol(std::string_view symbol) {
  const auto parts = parts_of(symbol);
  if (!parts) return parts.error();
  const auto words = symbol_tokens(parts->body, parts->body_offset);
  if (!words) return with_word_on_bass(words.error(), symbol);
  if (parts->root_in_lower_case && !names_its_third(*words))
    return unreadable(0, "a small letter as root means minor to some and not to others; write the root as a capital")
        .value();
  const auto recipe = recipe_from(*words, parts->body_offset + parts->body.size());
  if (!recipe) return recipe.error();
  return make_chord(std::string(symbol), parts->root, tones_of(*recipe), parts->bass,
                    recipe->altered_dominant ? Colouring::altered : Colouring::natural);
}

std::string_view without_outer_spaces(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

SymbolReading parse_trimmed(std::string_view symbol) {
  if (symbol.empty()) return unreadable(0, "found nothing where a chord symbol was expected").value();
  if (is_no_chord(symbol)) return std::optional<Chord>{};
  if (symbol == "%") return unreadable(0, "\"%\" repeats the bar before it and is not a chord").value();
  if (symbol == "X") return unreadable(0, "\"X\" says that the chord is not known").value();
  if (is_academic_label(symbol)) return parse_academic_label(symbol);
  return parse_everyday_symbol(symbol);
}

}  // namespace

SymbolReading read_chord_symbol(std::string_view symbol) {
  if (is_too_long(symbol))
    return unreadable(0, fmt::format("longer than {} characters, which no chord symbol is", longest_symbol_characters))
        .value();
  const std::string_view trimmed = without_outer_spaces(symbol);
  auto reading = parse_trimmed(trimmed);
  if (!reading) reading.error().offset_bytes += static_cast<std::size_t>(trimmed.data() - symbol.data());
  return reading;
}

SymbolReading parse_chord_symbol(std::string_view symbol) {
  auto reading = read_chord_symbol(symbol);
  if (!reading) reading.error().nearest = nearest_symbols(symbol, reading.error().offset_bytes);
  return reading;
}

}  // namespace insideline
