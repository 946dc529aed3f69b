// A changes file with its chords and its key written anew: moved, or spelled otherwise. Everything else stays as it was
// typed: titles, sections, repeats, endings, dots, comments, and the columns where there is room.
#pragma once

#include "analyzer/chord_spelling.hpp"
#include "analyzer/model/pitch.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace insideline::io {

struct ChartRewriting {
  Interval by;                             ///< as the key moves; {0, 0}: it stays
  std::optional<Accidentals> accidentals;  ///< of the chords' roots, once they are moved
};

/// The file `bytes`, with each chord moved by `how.by` and plainly spelled. Read again it is the same chart with its
/// chords moved. Throws ReadError where the chart cannot be read.
std::string rewritten_chart(std::string_view bytes, std::string_view file_name, const ChartRewriting& how);

/// The same for one chord.
Chord rewritten(const Chord& chord, const ChartRewriting& how);

}  // namespace insideline::io
