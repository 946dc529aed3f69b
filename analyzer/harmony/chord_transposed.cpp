#include "analyzer/harmony/academic_label.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/harmony/symbol_reading.hpp"
#include "analyzer/harmony/symbol_words.hpp"

namespace insideline {
namespace {

/// The symbol's text with its notes moved, and everything the writer put between them kept.
std::string moved_text(const Chord& chord, const Chord& moved) {
  const std::string capital = with_capital(chord.symbol);
  std::string_view rest = capital;
  if (take_symbol_note(rest) != chord.root) return {};
  std::string text = to_string(moved.root);
  if (chord.bass && !is_academic_label(chord.symbol)) {
    const auto slash = rest.rfind('/');
    if (slash == std::string_view::npos) return {};
    return text.append(rest.substr(0, slash + 1)).append(to_string(*moved.bass));
  }
  return text.append(rest);
}

}  // namespace

Chord transposed(const Chord& chord, const Interval& by) {
  Chord moved = chord;
  moved.root = transposed(chord.root, by);
  if (chord.bass) moved.bass = transposed(*chord.bass, by);
  moved.symbol = moved_text(chord, moved);
  const auto reading = read_chord_symbol(moved.symbol);
  if (!reading || !*reading || !same_chord(**reading, moved)) moved.symbol = canonical_symbol(moved);
  return moved;
}

}  // namespace insideline
