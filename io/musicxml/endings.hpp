// The endings of a part: which measures each of them holds, and in which passes it is played.
// Source: MusicXML 4.0, <ending>, <repeat>.
#pragma once

#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace insideline::io {

/// A stretch of measures that is played in some passes only. Endings side by side belong to one repeat: a group.
struct Ending {
  std::size_t first = 0;
  std::size_t end = 0;  ///< one past its last measure
  std::vector<int> passes;
  std::size_t group_first = 0;  ///< where the first ending of its group begins
  std::size_t group_end = 0;    ///< one past the last measure of its group
  int group_passes = 1;         ///< how often the section with this group is played
  bool after_jump = false;      ///< a repeat of its group is played again after a jump
};

struct Endings {
  std::vector<Ending> all;              ///< in order
  std::vector<std::size_t> renumbered;  ///< where endings begin whose numbers could not be meant
};

/// An ending lasts until the backward repeat, though its bracket may stop before; the passes of a group begin with 1,
/// and no two of its endings have the same.
Endings find_endings(std::span<const RoadSigns> signs);

bool has_pass(const Ending& ending, int pass);

}  // namespace insideline::io
