// The bars of a solo cut into the lines of the map. Every chorus begins a line of its own, so that the same bars of
// the form stand at the same place in each.
#pragma once

#include "reports/report.hpp"

#include <cstddef>
#include <vector>

namespace insideline::reports {

/// Bars that follow each other in the solo.
struct MapSystem {
  std::size_t first_bar = 0;
  std::size_t last_bar = 0;  ///< included
  int chorus = 0;            ///< 0 before the form begins and in a pickup
  int slot = -1;             ///< how many systems of the chorus stand before it; -1 where chorus is 0
  Beats onset;
  Beats end;
  std::size_t first_note = 0;
  std::size_t end_note = 0;  ///< one past the last
};

/// In the order they are played.
std::vector<MapSystem> map_systems(const Report& report);

/// 4, or 2 where the notes are so quick or the bars so long that degrees would not find room.
std::size_t bars_a_system(const Solo& solo);

/// Systems in the order in which choruses compare: the same bars of every chorus under each other.
std::vector<std::size_t> stacked_order(const std::vector<MapSystem>& systems);

}  // namespace insideline::reports
