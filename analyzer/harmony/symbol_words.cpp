#include "analyzer/harmony/symbol_words.hpp"

#include "analyzer/small_letters.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <optional>
#include <span>

#include <fmt/core.h>

namespace insideline {
namespace {

enum class Case : std::uint8_t { any, exact };

struct Spelling {
  std::string_view text;
  int value;
  Word word;
  Case match;
};

// Sources: R. Hutchinson, Music Theory for the 21st-Century Classroom, chapter 31 (the words and the
// signs); MusicXML 4.0, W3C, attribute use-symbols (the signs); encyclopedia article "Chord notation"
// (j, dom); the rest common practice, no source.
constexpr Spelling spellings[] = {
    {"major", 0, Word::major, Case::any},
    {"maj", 0, Word::major, Case::any},
    {"ma", 0, Word::major, Case::any},
    {"M", 0, Word::major, Case::exact},
    {"j", 1, Word::major, Case::exact},
    {"^", 0, Word::triangle, Case::exact},
    {"\u0394", 0, Word::triangle, Case::exact},  // Greek capital delta
    {"\u25B3", 0, Word::triangle, Case::exact},  // white up-pointing triangle
    {"\u2206", 0, Word::triangle, Case::exact},  // increment
    {"minor", 0, Word::minor, Case::any},
    {"min", 0, Word::minor, Case::any},
    {"mi", 0, Word::minor, Case::any},
    {"m", 0, Word::minor, Case::exact},
    {"-", 0, Word::minus, Case::exact},
    {"\u2212", 0, Word::minus, Case::exact},  // minus sign
    {"\u2010", 0, Word::minus, Case::exact},  // hyphen
    {"\u2011", 0, Word::minus, Case::exact},  // non-breaking hyphen
    {"\u2013", 0, Word::minus, Case::exact},  // en dash
    {"\u2014", 0, Word::minus, Case::exact},  // em dash
    {"diminished", 0, Word::diminished, Case::any},
    {"dim", 0, Word::diminished, Case::any},
    {"o", 0, Word::diminished, Case::exact},
    {"\u00B0", 0, Word::diminished, Case::exact},  // degree sign
    {"\u00BA", 0, Word::diminished, Case::exact},  // masculine ordinal
    {"\u25CB", 0, Word::diminished, Case::exact},  // white circle
    {"half-diminished", 0, Word::half_diminished, Case::any},
    {"halfdim", 0, Word::half_diminished, Case::any},
    {"hdim", 0, Word::half_diminished, Case::any},
    {"h", 0, Word::half_diminished, Case::exact},
    {"\u00F8", 0, Word::half_diminished, Case::exact},  // o with stroke
    {"\u00D8", 0, Word::half_diminished, Case::exact},
    {"\u2300", 0, Word::half_diminished, Case::exact},  // diameter sign
    {"\u2205", 0, Word::half_diminished, Case::exact},  // empty set
    {"augmented", 0, Word::augmented, Case::any},
    {"aug", 0, Word::augmented, Case::any},
    {"+", 0, Word::plus, Case::exact},
    {"dominant", 0, Word::dominant, Case::any},
    {"dom", 0, Word::dominant, Case::any},
    {"suspended", 0, Word::sus, Case::any},
    {"sus", 0, Word::sus, Case::any},
    {"add", 0, Word::add, Case::any},
    {"omit", 0, Word::omit, Case::any},
    {"no", 0, Word::omit, Case::any},
    {"altered", 0, Word::alt, Case::any},
    {"alt", 0, Word::alt, Case::any},
    {"th", 0, Word::ordinal, Case::any},
    {"rd", 0, Word::ordinal, Case::any},
    {"nd", 0, Word::ordinal, Case::any},
    {"#", 1, Word::sharp, Case::exact},
    {"\u266F", 1, Word::sharp, Case::exact},
    {"\U0001D12A", 2, Word::sharp, Case::exact},
    {"b", 1, Word::flat, Case::exact},
    {"\u266D", 1, Word::flat, Case::exact},
    {"\U0001D12B", 2, Word::flat, Case::exact},
    {"\u266E", 0, Word::natural, Case::exact},
    {"(", 0, Word::open, Case::exact},
    {"[", 0, Word::open, Case::exact},
    {"{", 0, Word::open, Case::exact},
    {")", 0, Word::close, Case::exact},
    {"]", 0, Word::close, Case::exact},
    {"}", 0, Word::close, Case::exact},
    {",", 0, Word::separator, Case::exact},
    {" ", 0, Word::separator, Case::exact},
    {"\u00A0", 0, Word::separator, Case::exact},
    {"/", 0, Word::slash, Case::exact},
    {"10", 10, Word::number, Case::exact},
    {"11", 11, Word::number, Case::exact},
    {"13", 13, Word::number, Case::exact},
    {"1", 1, Word::number, Case::exact},
    {"2", 2, Word::number, Case::exact},
    {"3", 3, Word::number, Case::exact},
    {"4", 4, Word::number, Case::exact},
    {"5", 5, Word::number, Case::exact},
    {"6", 6, Word::number, Case::exact},
    {"7", 7, Word::number, Case::exact},
    {"9", 9, Word::number, Case::exact},
};

constexpr bool is_sharp_or_flat(const Spelling& spelling) {
  return spelling.word == Word::sharp || spelling.word == Word::flat;
}

/// The signs, which stand together in the table.
constexpr std::span<const Spelling> accidental_signs = [] {
  const auto* const first = std::ranges::find_if(spellings, is_sharp_or_flat);
  const auto* const last = std::find_if_not(first, std::end(spellings), is_sharp_or_flat);
  return std::span<const Spelling>(first, last);
}();
static_assert(std::ranges::count_if(spellings, is_sharp_or_flat) == std::ssize(accidental_signs));

/// The spellings by the small form of their first letter, in the order of the table.
struct SpellingsByLetter {
  static constexpr std::uint8_t none = std::size(spellings);
  std::array<std::uint8_t, 256> first{};
  std::array<std::uint8_t, none> next{};

  consteval SpellingsByLetter() {
    first.fill(none);
    for (std::uint8_t row = none; row-- > 0;) {
      next.at(row) = first_of(spellings[row].text.front());
      first.at(static_cast<unsigned char>(small_letter(spellings[row].text.front()))) = row;
    }
  }
  [[nodiscard]] constexpr std::uint8_t first_of(char letter) const {
    return first[static_cast<unsigned char>(small_letter(letter))];
  }
};
constexpr SpellingsByLetter by_letter;

bool begins_with(std::string_view text, const Spelling& spelling) {
  if (spelling.match == Case::exact) return text.starts_with(spelling.text);
  return same_but_for_capitals(text.substr(0, spelling.text.size()), spelling.text);
}

/// The length of the UTF-8 sequence at the front of `text`; none where the bytes are not UTF-8.
std::optional<std::size_t> sequence_length(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const std::size_t length = lead < 0x80 ? 1 : lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC2 ? 2 : 0;
  if (length == 0 || lead > 0xF4 || length > text.size()) return std::nullopt;
  const auto continues = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; };
  if (!std::all_of(text.begin() + 1, text.begin() + static_cast<std::ptrdiff_t>(length), continues))
    return std::nullopt;
  return length;
}

/// The words that can stand at one place of a body.
struct WordsHere {
  const Spelling* longest = nullptr;
  const Spelling* leads_on = nullptr;  ///< the longest after which the rest can be cut into words to the end
};

bool is_longer(const Spelling& word, const Spelling* than) {
  return than == nullptr || word.text.size() > than->text.size();
}

/// For each byte of the body.
std::vector<WordsHere> words_from(std::string_view body) {
  std::vector<WordsHere> words(body.size());
  for (std::size_t i = body.size(); i-- > 0;)
    for (std::uint8_t row = by_letter.first_of(body[i]); row != by_letter.none; row = by_letter.next[row]) {
      const Spelling& spelling = spellings[row];
      if (!begins_with(body.substr(i), spelling)) continue;
      const std::size_t end = i + spelling.text.size();
      if (is_longer(spelling, words[i].longest)) words[i].longest = &spelling;
      const bool rest_is_readable = end == body.size() || words[end].leads_on != nullptr;
      if (rest_is_readable && is_longer(spelling, words[i].leads_on)) words[i].leads_on = &spelling;
    }
  return words;
}

}  // namespace

std::string shown_front(std::string_view text) {
  if (text.empty()) return "the end";
  const auto length = sequence_length(text);
  if (!length) return "a byte that is not UTF-8";
  if (*length == 1 && std::iscntrl(static_cast<unsigned char>(text.front())) != 0) return "a control character";
  return fmt::format("\"{}\"", text.substr(0, *length));
}

tl::expected<std::vector<SymbolToken>, UnreadableSymbol> symbol_tokens(std::string_view body,
                                                                       std::size_t first_offset) {
  const auto words = words_from(body);
  const bool readable = !words.empty() && words.front().leads_on != nullptr;
  std::vector<SymbolToken> tokens;
  for (std::size_t position = 0; position < body.size();) {
    // The longest word; where the whole can be read, the longest that leaves the rest readable ("madd9" is m add 9 and
    // not ma).
    const Spelling* const found = readable ? words[position].leads_on : words[position].longest;
    if (found == nullptr)
      return tl::unexpected(
          UnreadableSymbol{first_offset + position,
                           fmt::format("found {} where a quality, a number, an alteration or a slash can stand",
                                       shown_front(body.substr(position))),
                           {}});
    tokens.push_back({found->word, found->value, first_offset + position});
    position += found->text.size();
  }
  return tokens;
}

std::string with_capital(std::string_view text) {
  std::string result(text);
  if (!result.empty()) result.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(result.front())));
  return result;
}

tl::unexpected<UnreadableSymbol> unreadable(std::size_t offset_bytes, std::string message) {
  return tl::unexpected(UnreadableSymbol{offset_bytes, std::move(message), {}});
}

std::optional<NoteName> take_symbol_note(std::string_view& text, int most) {
  if (text.empty() || text.front() < 'A' || text.front() > 'G') return std::nullopt;
  auto name = parse_note_name(text.substr(0, 1));
  std::string_view rest = text.substr(1);
  for (bool more = true; more && name;) {
    more = false;
    for (const Spelling& spelling : accidental_signs) {
      const int sign = spelling.word == Word::sharp ? 1 : -1;
      if (sign * name->alter < 0 || !rest.starts_with(spelling.text)) continue;
      name->alter += sign * spelling.value;
      rest.remove_prefix(spelling.text.size());
      more = true;
    }
  }
  if (!name || name->alter > most || name->alter < -most) return std::nullopt;
  text = rest;
  return name;
}

}  // namespace insideline
