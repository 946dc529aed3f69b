// Reads chord symbols as the trade writes them. An unreadable symbol is an
// error with its place and the nearest readings, never a guess.
#pragma once

#include "analyzer/model/chord.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace insideline {

struct UnreadableSymbol {
  std::size_t offset_bytes = 0;      ///< where in the symbol reading stopped
  std::string message;               ///< what was found there and what was expected
  std::vector<std::string> nearest;  ///< readable symbols that look alike, best first; at most three
};

/// A chord, or none for N.C.
using SymbolReading = tl::expected<std::optional<Chord>, UnreadableSymbol>;

SymbolReading parse_chord_symbol(std::string_view symbol);

/// The plainest spelling of the chord, in ASCII: parsing it gives the same chord.
std::string canonical_symbol(const Chord& chord);

}  // namespace insideline
