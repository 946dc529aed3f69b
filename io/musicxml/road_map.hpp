// The order in which measures are played: repeats, endings, da capo, dal segno, coda, fine.
// Source: MusicXML 4.0, <repeat>, <ending>, <sound>.
#pragma once

#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace insideline::io {

struct PlayingOrder {
  std::vector<std::size_t> measures;  ///< indices of written measures, in the order they are played
  /// For each of `measures`, the one that leads to it when one reads on, without the endings of other passes.
  std::vector<std::optional<std::size_t>> before;
  std::vector<std::size_t> lost_jumps;          ///< measures whose jump names a sign that is not there
  std::vector<std::size_t> idle_codas;          ///< measures with a coda sign in a score without a jump
  std::vector<std::size_t> renumbered_endings;  ///< where endings begin whose numbers could not be meant
  bool endless = false;  ///< the map plays more bars than anybody would write out; `measures` is cut there
};

/// Adds to `signs` what only `other`, the same measure in another part, says.
void add_missing(RoadSigns& signs, const RoadSigns& other);

/// A repeat is played twice unless it says otherwise; a jump is taken once, after it repeats are
/// off and the last ending is played, or the one that the jump names, which then is the end; the coda is for after
/// a jump. Always ends.
PlayingOrder playing_order(std::vector<RoadSigns> signs);

}  // namespace insideline::io
