// Reading a symbol without looking for its likes, for those who try many spellings.
#pragma once

#include "analyzer/harmony/chord_symbol.hpp"

#include <string_view>

namespace insideline {

/// As parse_chord_symbol, but an error offers no nearest symbols.
SymbolReading read_chord_symbol(std::string_view symbol);

}  // namespace insideline
