// How a line goes from note to note, as a figure keeps it when it is moved or fitted to another chord.
#pragma once

#include "analyzer/heard_line.hpp"

namespace insideline {

/// True where note `index` goes on from the one before: in the same phrase, and no rest of a beat between.
bool goes_on(const HeardLine& line, std::size_t index);

/// Semitones as the steps of a scale would have them, with their direction: 1 and 2 are a step, 3 and 4 a third, 5 and
/// 6 a fourth, 7 a fifth, 8 and 9 a sixth, 10 and 11 a seventh, 12 an octave and so on.
int scale_steps(int semitones);

/// scale_steps to note `index` from the one before. `index` > 0.
int scale_steps_to(const HeardLine& line, std::size_t index);

/// Time from the note before `index` to it. `index` > 0.
Beats wait_before(const HeardLine& line, const Solo& solo, std::size_t index);

}  // namespace insideline
