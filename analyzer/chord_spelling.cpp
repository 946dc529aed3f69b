#include "analyzer/chord_spelling.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <cstdlib>

namespace insideline {
namespace {

constexpr Interval to_next_letter{1, 0};     // C# is Db
constexpr Interval to_letter_before{-1, 0};  // Db is C#

/// The other name of a note that has a double accidental.
NoteName plain_name(const NoteName& name) {
  if (std::abs(name.alter) < 2) return name;
  return transposed(name, name.alter > 0 ? to_next_letter : to_letter_before);
}

}  // namespace

Chord spelled_with(const Chord& chord, Accidentals accidentals) {
  const bool in_flats = accidentals == Accidentals::flats;
  const int alter = chord.root.alter;
  if (in_flats ? alter <= 0 : alter >= 0) return chord;
  return transposed(chord, in_flats ? to_next_letter : to_letter_before);
}

Key spelled_with(const Key& key, Accidentals accidentals) {
  constexpr int fifths_between = 12;
  constexpr int most_signs = 7;
  const int fifths = key.fifths + (accidentals == Accidentals::flats ? -fifths_between : fifths_between);
  return std::abs(fifths) > most_signs ? key : Key{fifths, key.minor, key.mode};
}

Chord plainly_spelled(const Chord& chord) {
  Chord plain = chord;
  if (const NoteName root = plain_name(chord.root); root != chord.root)
    plain = transposed(chord, chord.root.alter > 0 ? to_next_letter : to_letter_before);
  if (!plain.bass || plain_name(*plain.bass) == *plain.bass) return plain;
  plain.bass = plain_name(*plain.bass);
  plain.symbol = canonical_symbol(plain);
  return plain;
}

Changes moved_plainly(const Changes& changes, const Interval& by) {
  Changes moved = transposed(changes, by);
  for (ChordSpan& span : moved.spans)
    if (span.chord) span.chord = plainly_spelled(*span.chord);
  return moved;
}

}  // namespace insideline
