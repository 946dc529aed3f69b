// From what fingers played to what a musician would write down.
#pragma once

#include "io/midi/rhythm_path.hpp"
#include "io/midi/swing.hpp"

#include <span>
#include <vector>

namespace insideline::io {

struct WrittenRhythm {
  std::int64_t onset = 0;     ///< in units of beat_cells.hpp
  std::int64_t duration = 0;  ///< > 0; 0 for a grace note
  bool grace = false;
};

struct Quantized {
  std::vector<WrittenRhythm> notes;  ///< one for each note played
  Manner manner;                     ///< of the whole line
};

/// `notes` in order of onset, none sounding into the next; `cells` cover them and are not empty.
Quantized quantized(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                    std::span<const Grid> grids = {});

}  // namespace insideline::io
