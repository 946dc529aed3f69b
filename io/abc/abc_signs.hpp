// The signs that a line of music consists of: notes, lengths, bar lines, tuplets.
// Source: the ABC music standard 2.1 (abcnotation), from memory: 4.1 to 4.3, 4.8, 4.9, 4.13.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/pitch.hpp"
#include "io/abc/abc_text.hpp"

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace insideline::io {

/// Where reading has got to in a line. `at` never passes the end of `line`.
struct AbcCursor {
  std::string_view line;
  std::size_t offset_bytes = 0;  ///< of the line in the text
  std::size_t at = 0;
  const AbcText& source;

  [[nodiscard]] bool done() const { return at >= line.size(); }
  [[nodiscard]] char peek(std::size_t ahead = 0) const { return at + ahead < line.size() ? line[at + ahead] : '\0'; }
  [[nodiscard]] std::string_view rest() const { return line.substr(at); }
  [[nodiscard]] std::size_t place() const { return offset_bytes + at; }
  /// True, and past it, where `sign` comes next.
  bool take(char sign) {
    if (done() || peek() != sign) return false;
    ++at;
    return true;
  }
};

/// A note without its length.
struct AbcNote {
  Step step = Step::c;
  int octave = 4;
  std::optional<int> accidental;  ///< in semitones; none where the note has no sign of its own
  bool microtone = false;         ///< its sign names a part of a semitone, which was left out
  std::size_t offset_bytes = 0;
};

struct AbcBarSign {
  int ends = 0;             ///< how often the stretch that ends here is played again
  bool starts = false;      ///< a repeat begins
  bool loose = false;       ///< its colon stands apart, "| :": it begins a repeat where none has begun
  bool closing = false;     ///< a double or repeat bar line, which ends an ending
  std::vector<int> ending;  ///< the passes of the ending that begins here; empty where none does
};

struct AbcTuplet {
  Beats factor;   ///< what each note is shortened or lengthened by
  int notes = 0;  ///< how many notes it holds
};

bool at_abc_note(const AbcCursor& cursor);
AbcNote take_abc_note(AbcCursor& cursor);
/// "2", "/", "3/2": a multiple of the unit note length, 1 where nothing is written.
Beats take_abc_length(AbcCursor& cursor);
std::optional<int> take_abc_number(AbcCursor& cursor, int most);

bool at_abc_bar(const AbcCursor& cursor);
AbcBarSign take_abc_bar(AbcCursor& cursor);

/// The "(3:2:2" at the cursor. `compound` is the meter: 6/8, 9/8 and 12/8 count in threes.
AbcTuplet take_abc_tuplet(AbcCursor& cursor, bool compound);

}  // namespace insideline::io
