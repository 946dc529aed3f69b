// A bar cut into columns: one for each thing that begins in it (a note, a grace note,
// a rest, a chord under a held note), in order.
#pragma once

#include "reports/report.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline::reports {

struct BarColumn {
  Beats position;
  std::optional<std::size_t> note = {};  ///< index of the note that begins here
  bool held = false;                     ///< no note begins, an earlier one still sounds
  std::string chord = {};                ///< the symbol where it changes or the bar begins; "N.C."; or empty
  std::string beat = {};                 ///< "1", "&", "e", "a", "1/3"; "gr" for a grace note
};

std::vector<BarColumn> bar_columns(const Report& report, std::size_t bar_index);

}  // namespace insideline::reports
