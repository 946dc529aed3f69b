// The words chord symbols are made of, and how a symbol is cut into them. Nothing
// here knows what the words mean together; that is symbol_grammar's.
#pragma once

#include "analyzer/harmony/chord_symbol.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace insideline {

enum class Word : std::uint8_t {
  number,
  sharp,
  flat,
  natural,
  plus,
  minus,
  major,
  triangle,
  minor,
  diminished,
  augmented,
  half_diminished,
  dominant,
  sus,
  add,
  omit,
  alt,
  ordinal,
  open,
  close,
  separator,
  slash
};

struct SymbolToken {
  Word word = Word::separator;
  int value = 0;  ///< a number, or how many sharps or flats; 1 for the letter j of j7; else 0
  std::size_t offset_bytes = 0;
};

/// Cuts `body` into words. Digits that stand together are taken apart ("7913" is 7 9 13).
/// Offsets count from `first_offset`.
tl::expected<std::vector<SymbolToken>, UnreadableSymbol> symbol_tokens(std::string_view body, std::size_t first_offset);

/// What stands at the front of `text`, for a message: a quoted character, "a byte that is not UTF-8"
/// or "the end".
std::string shown_front(std::string_view text);

/// The text with its first letter as a capital.
std::string with_capital(std::string_view text);

/// Reading stopped at `offset_bytes`; the nearest readings are found later.
tl::unexpected<UnreadableSymbol> unreadable(std::size_t offset_bytes, std::string message);

constexpr int most_accidentals = 2;  ///< of a degree, and of a note where nothing else is said

/// A note name at the front of `text`, in capitals, with # b or their Unicode signs: up to
/// `most` of them. Takes it off `text`; none (and `text` untouched) where there is no such name.
std::optional<NoteName> take_symbol_note(std::string_view& text, int most = most_accidentals);

}  // namespace insideline
