#include "analyzer/patterns/moves.hpp"

#include <array>
#include <cstdlib>
#include <map>

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

LineMoves moves_of(const HeardLine& line, const Solo& solo) {
  constexpr int most_steps = 1 << 10;  // each way: more than there are MIDI numbers
  LineMoves moves{.waits = std::vector<int>(line.notes.size(), 0),
                  .shapes = std::vector<int>(line.notes.size(), no_move)};
  std::map<Beats, int> numbers;
  Beats wait;
  int number = numbers.try_emplace(wait, 0).first->second;
  for (std::size_t i = 1; i < line.notes.size(); ++i) {
    const Beats here = solo.notes[line.notes[i].note].onset - solo.notes[line.notes[i - 1].note].onset;
    if (here != wait) {  // mostly it is the same as before
      wait = here;
      number = numbers.try_emplace(wait, static_cast<int>(numbers.size())).first->second;
    }
    moves.waits[i] = number;
    if (!goes_on(line, i)) continue;
    const int steps = scale_steps(line.notes[i].midi - line.notes[i - 1].midi);
    moves.shapes[i] = number * 2 * most_steps + steps + most_steps;
  }
  return moves;
}

}  // namespace insideline
