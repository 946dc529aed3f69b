// The order in which measures are played: repeats, endings, da capo, dal segno, coda, fine.
// Source: MusicXML 4.0, <repeat>, <ending>, <sound>.
#pragma once

#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <vector>

namespace insideline::io {

struct PlayingOrder {
  std::vector<std::size_t> measures;    ///< indices of written measures, in the order they are played
  std::vector<std::size_t> lost_jumps;  ///< measures whose jump names a sign that is not there
  bool endless = false;  ///< the map plays more bars than anybody would write out; `measures` is cut there
};

/// Adds to `signs` what only `other`, the same measure in another part, says.
void add_missing(RoadSigns& signs, const RoadSigns& other);

/// A repeat is played twice unless it says otherwise; a jump is taken once, after it repeats are
/// off and the last ending is played; the coda is for after a jump. Always ends.
PlayingOrder playing_order(std::vector<RoadSigns> signs);

}  // namespace insideline::io
