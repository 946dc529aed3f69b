// Reads the lines of a chart into written bars: their chords and the signs of the road map.
#pragma once

#include "analyzer/model/changes.hpp"
#include "io/changes/bar_reader.hpp"
#include "io/changes/chart_text.hpp"
#include "io/changes/road_map.hpp"
#include "io/read_result.hpp"

#include <string>
#include <vector>

namespace insideline::io {

/// The bars as they are written; `marks`, `meters` and `chords` run parallel.
struct WrittenBars {
  std::vector<BarMarks> marks;
  std::vector<Meter> meters;
  std::vector<std::vector<BarChord>> chords;
  std::vector<Sign> words;  ///< chords and what stands for them, in the order of the file
  std::vector<Warning> warnings;
};

/// `lines` are the lines of chords, and headers that change the meter from the bar after them on. A line need neither
/// begin nor end with a bar line; its end ends the bar. Throws ReadError.
WrittenBars read_bars(const ChartText& chart, const std::vector<ChartLine>& lines, Meter meter);

}  // namespace insideline::io
