// Reads chord symbols as the trade writes them. An unreadable symbol is an
// error with its place and the nearest readings, never a guess.
#pragma once

#include "analyzer/model/chord.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace insideline {

struct UnreadableSymbol {
  std::size_t offset_bytes = 0;      ///< where in the symbol reading stopped
  std::string message;               ///< what was found there and what was expected
  std::vector<std::string> nearest;  ///< readable symbols that look alike, best first; at most three
};

/// A chord, or none for N.C.; or why there is neither. It says what `tl::expected` would, and asks no user of the
/// library for that header.
class SymbolReading {
 public:
  // NOLINTBEGIN(google-explicit-constructor): a chord is a reading, and so is the reason why there is none
  SymbolReading(std::optional<Chord> chord) : result_(std::move(chord)) {}
  SymbolReading(Chord chord) : result_(std::optional(std::move(chord))) {}
  SymbolReading(UnreadableSymbol problem) : result_(std::move(problem)) {}
  // NOLINTEND(google-explicit-constructor)

  [[nodiscard]] bool has_value() const { return result_.index() == 0; }
  explicit operator bool() const { return has_value(); }

  /// Throws std::bad_variant_access where the symbol could not be read.
  [[nodiscard]] const std::optional<Chord>& value() const { return std::get<0>(result_); }
  const std::optional<Chord>& operator*() const { return value(); }
  const std::optional<Chord>* operator->() const { return &value(); }

  /// Throws std::bad_variant_access where it could.
  [[nodiscard]] const UnreadableSymbol& error() const { return std::get<1>(result_); }
  UnreadableSymbol& error() { return std::get<1>(result_); }

 private:
  std::variant<std::optional<Chord>, UnreadableSymbol> result_;
};

SymbolReading parse_chord_symbol(std::string_view symbol);

/// The plainest spelling of the chord, in ASCII: parsing it gives the same chord.
std::string canonical_symbol(const Chord& chord);

}  // namespace insideline
