// How a line goes from note to note, as a figure keeps it when it is moved or fitted to another chord.
#pragma once

#include "analyzer/heard_line.hpp"

#include <vector>

namespace insideline {

/// True where note `index` goes on from the one before: in the same phrase, and no rest of a beat between.
inline bool goes_on(const HeardLine& line, std::size_t index) {
  return index > 0 && index < line.notes.size() && !line.notes[index].after_rest &&
         line.notes[index].phrase == line.notes[index - 1].phrase;
}

/// Semitones as the steps of a scale would have them, with their direction: 1 and 2 are a step, 3 and 4 a third, 5 and
/// 6 a fourth, 7 a fifth, 8 and 9 a sixth, 10 and 11 a seventh, 12 an octave and so on.
int scale_steps(int semitones);

/// The ways from note to note as numbers, so that times and shapes are compared without fractions. Parallel to
/// HeardLine::notes, each for the way from the note before; the first note has none.
struct LineMoves {
  std::vector<int> waits;  ///< equal where the times from onset to onset are
  std::vector<int>
      shapes;  ///< 0 or more, equal where scale_steps and times are; `no_move` where the line does not go on
};
constexpr int no_move = -1;
LineMoves moves_of(const HeardLine& line);

}  // namespace insideline
