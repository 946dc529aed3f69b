#include "io/midi/quantize.hpp"

#include "io/midi/note_ends.hpp"

#include <algorithm>

namespace insideline::io {

Quantized quantized(std::span<const TimedNote> notes, std::span<const BeatCell> cells, std::span<const Grid> grids) {
  const std::vector<Subdivision> figures = subdivisions(grids);
  const Reach reach = grids.empty() ? Reach::near : Reach::anywhere;
  const Manner guess = first_manner(notes, cells);
  constexpr std::size_t notes_to_learn_from = 150;  // enough to know a swing by
  const auto lesson = notes.first(std::min(notes.size(), notes_to_learn_from));
  const auto first = cheapest_path(lesson, cells, figures, guess, reach).placed;
  Quantized result;
  result.manner = heard_manner(lesson, cells, figures, first, guess);
  const auto placed = cheapest_path(notes, cells, figures, result.manner, reach).placed;
  result.notes = with_ends(notes, cells, figures, placed, result.manner);
  return result;
}

}  // namespace insideline::io
