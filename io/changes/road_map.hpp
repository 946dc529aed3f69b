// The road map of a chart: in which order its written bars are played, given
// repeats, endings, sections and the form.
#pragma once

#include "io/changes/chart_headers.hpp"
#include "io/changes/chart_text.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline::io {

/// The signs at one written bar.
struct BarMarks {
  std::size_t offset_bytes = 0;
  std::string section;  ///< the section the bar lies in; empty before the first
  bool starts_section = false;
  bool starts_repeat = false;  ///< |:
  int times = 0;               ///< how often a stretch that ends here with :| is played; 0 without the sign
  std::vector<int> ending;     ///< the passes that take the ending which starts here; empty where none does
};

constexpr std::size_t most_played_bars = 10'000;

/// Indices into `bars` as they are played: the whole chart in written order, or the sections
/// in the order of `form`, which leaves out a section it does not name. Repeats do not nest.
/// Throws ReadError for a road that cannot be followed, or that is longer than most_played_bars.
std::vector<std::size_t> playing_order(const ChartText& chart, const std::vector<BarMarks>& bars,
                                       const std::vector<FormEntry>& form);

}  // namespace insideline::io
