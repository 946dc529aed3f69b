// The grammar of everyday chord symbols, from the words after the root to a recipe.
#pragma once

#include "analyzer/harmony/chord_recipe.hpp"
#include "analyzer/harmony/symbol_words.hpp"

#include <span>

#include <tl/expected.hpp>

namespace insideline {

/// Reads the words between root and bass: a quality (m, maj, dim ...), how far thirds are stacked (6, 7, 9 ...),
/// then in any order alterations, sus, add, omit, alt. Brackets, commas, spaces and slashes only separate,
/// except that a number in brackets is just that note. `end_bytes` is where the words end, for messages.
tl::expected<ChordRecipe, UnreadableSymbol> recipe_from(std::span<const SymbolToken> words, std::size_t end_bytes);

}  // namespace insideline
