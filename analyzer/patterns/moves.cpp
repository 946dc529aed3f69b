#include "analyzer/patterns/moves.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <span>

namespace insideline {

int scale_steps(int semitones) {
  constexpr std::array<int, semitones_in_octave> steps = {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
  constexpr int steps_in_octave = 7;
  const int size = std::abs(semitones);
  const int whole =
      size / semitones_in_octave * steps_in_octave + steps.at(static_cast<std::size_t>(size % semitones_in_octave));
  return semitones < 0 ? -whole : whole;
}

namespace {

/// A number for each wait and size of step, as small as the line allows.
void number_shapes(LineMoves& moves, std::span<const int> steps) {
  const auto [lowest, highest] = std::ranges::minmax(steps);
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (moves.shapes[i] != no_move) moves.shapes[i] = moves.waits[i] * (highest - lowest + 1) + steps[i] - lowest;
}

}  // namespace

LineMoves moves_of(const HeardLine& line) {
  LineMoves moves{.waits = std::vector<int>(line.notes.size(), 0),
                  .shapes = std::vector<int>(line.notes.size(), no_move)};
  if (line.notes.empty()) return moves;
  std::vector<int> steps(line.notes.size(), 0);
  std::map<std::int64_t, int> numbers;
  std::int64_t wait = 0;
  int number = numbers.try_emplace(wait, 0).first->second;
  for (std::size_t i = 1; i < line.notes.size(); ++i) {
    const std::int64_t here = line.notes[i].onset - line.notes[i - 1].onset;
    if (here != wait) {  // mostly it is the same as before
      wait = here;
      number = numbers.try_emplace(wait, static_cast<int>(numbers.size())).first->second;
    }
    moves.waits[i] = number;
    if (!goes_on(line, i)) continue;
    moves.shapes[i] = 0;
    steps[i] = scale_steps(line.notes[i].midi - line.notes[i - 1].midi);
  }
  number_shapes(moves, steps);
  return moves;
}

}  // namespace insideline
