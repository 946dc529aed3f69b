// Chord labels of music research: "C:min7/b3", "N".
// Source: C. Harte, M. Sandler, S. Abdallah, E. Gomez, "Symbolic Representation of Musical Chords:
// A Proposed Syntax for Text Annotations", ISMIR 2005, pp. 66-71, table 1; and the later shorthands
// of that field (sus2, 1, 5, aug7, 11, maj11, min11, 13, maj13, min13; 11ths and 13ths full stacks).
#pragma once

#include "analyzer/harmony/chord_symbol.hpp"

#include <string>
#include <string_view>

namespace insideline {

/// Whether `text` is written as a label: a colon after the root, or a lone root with a
/// degree as its bass ("C/b3").
bool is_academic_label(std::string_view text);

/// Reads a label; `is_academic_label(label)` must hold. Degrees count from the major scale, so 7 is the major seventh.
SymbolReading parse_academic_label(std::string_view label);

/// The label with the shorthand that needs the fewest degrees in brackets: "C:7(b9)".
std::string academic_label(const Chord& chord);

}  // namespace insideline
