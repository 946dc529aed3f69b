#include "io/midi/quantize.hpp"

#include "io/midi/note_ends.hpp"

#include <utility>

namespace insideline::io {

Quantized quantized(std::span<const TimedNote> notes, std::span<const BeatCell> cells, std::span<const Grid> grids) {
  const std::vector<Subdivision> figures = subdivisions(grids);
  const Reach reach = grids.empty() ? Reach::near : Reach::anywhere;
  const Manner guess = first_manner(notes, cells);
  const auto first = cheapest_path(notes, cells, figures, guess, reach).placed;
  Quantized result;
  result.manner = heard_manner(notes, cells, figures, first, guess);
  const auto placed = cheapest_path(notes, cells, figures, result.manner, reach).placed;
  result.notes = with_ends(notes, cells, figures, placed, result.manner);
  return result;
}

}  // namespace insideline::io
