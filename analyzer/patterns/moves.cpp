#include "analyzer/patterns/moves.hpp"

#include <array>
#include <cstdlib>

namespace insideline {

bool goes_on(const HeardLine& line, std::size_t index) {
  return index > 0 && index < line.notes.size() && !line.notes[index].after_rest &&
         line.notes[index].phrase == line.notes[index - 1].phrase;
}

int scale_steps(int semitones) {
  constexpr std::array<int, semitones_in_octave> steps = {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
  constexpr int steps_in_octave = 7;
  const int size = std::abs(semitones);
  const int whole =
      size / semitones_in_octave * steps_in_octave + steps.at(static_cast<std::size_t>(size % semitones_in_octave));
  return semitones < 0 ? -whole : whole;
}

int scale_steps_to(const HeardLine& line, std::size_t index) {
  return scale_steps(line.notes[index].midi - line.notes[index - 1].midi);
}

Beats wait_before(const HeardLine& line, const Solo& solo, std::size_t index) {
  return solo.notes[line.notes[index].note].onset - solo.notes[line.notes[index - 1].note].onset;
}

}  // namespace insideline
