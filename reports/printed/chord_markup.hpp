// Chord symbols for print, in the player's own spelling: the root, what kind of chord it
// is, and raised behind it whatever is stacked on it or altered.
#pragma once

#include "analyzer/model/chord.hpp"

#include <optional>
#include <string>

namespace insideline::reports {

/// A symbol in the parts that are printed differently; "Bbm7(b5)/Db" is Bb, "m", "7(b5)", Db.
struct ChordParts {
  NoteName root;
  std::string quality;    ///< on the line: "m", "maj", "dim"
  std::string extension;  ///< raised: "7", "13sus4", "7(b9)"
  std::optional<NoteName> bass;
};

/// Labels of music research ("C:min7") are printed as everyday symbols.
ChordParts chord_parts(const Chord& chord);

/// The call that prints the symbol: \chord-symbol "B" "b" "m" { "7(" \flat-sign "5)" } "D" "b".
std::string chord_markup(const Chord& chord);

}  // namespace insideline::reports
