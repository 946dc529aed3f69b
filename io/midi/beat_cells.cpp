#include "io/midi/beat_cells.hpp"

namespace insideline::io {

std::size_t cell_at(std::span<const BeatCell> cells, double seconds, std::size_t hint) {
  while (hint > 0 && cells[hint].onset_seconds > seconds) --hint;
  while (hint + 1 < cells.size() && cells[hint + 1].onset_seconds <= seconds) ++hint;
  return hint;
}

}  // namespace insideline::io
