// Reads what stands between two bar lines: chords with or without beats, `%`, N.C.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/chord.hpp"
#include "io/changes/chart_text.hpp"

#include <optional>
#include <vector>

namespace insideline::io {

/// A chord (none: N.C.) and how long it sounds in its bar.
struct BarChord {
  std::optional<Chord> chord;
  Beats duration;
};

/// Bar `number` (as written, from 1) of the chart, from its `words` (at least one). `before` is the
/// bar before, empty for the first. Throws ReadError naming line and bar.
std::vector<BarChord> read_bar(const ChartText& chart, const std::vector<Sign>& words, int number, const Meter& meter,
                               const std::vector<BarChord>& before);

}  // namespace insideline::io
