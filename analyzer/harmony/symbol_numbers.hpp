// Numbers with their sharps and flats. Both orders occur on charts: "7b9" and "79b".
#pragma once

#include "analyzer/harmony/symbol_words.hpp"

#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// A number of a symbol with the accidentals that belong to it.
struct NamedNumber {
  int number = 0;
  std::optional<int> alter;  ///< none where it stands without accidental
  std::size_t offset_bytes = 0;
};

/// Whether the word can be part of a run of numbers.
bool is_number_part(Word word);

/// Binds the accidentals of a run of number words (no separators in it) to their numbers: each to the number after it,
/// or, if that leaves one over or a bare fifth or third, each to the number before it. `opens_stack` says that the
/// first number is the chord's own (the 7 of C7) and takes no accidental. None where neither way reads.
std::optional<std::vector<NamedNumber>> named_numbers(std::span<const SymbolToken> run, bool opens_stack);

/// The degree that a number names in a chord symbol: 2 is 9, 4 is 11, b10 is the #9 that it sounds like; 7 and b7 are
/// the minor seventh, #7 and a natural sign the major one. None where a symbol names no such degree.
std::optional<Degree> degree_named(const NamedNumber& named);

}  // namespace insideline
