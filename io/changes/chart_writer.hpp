// Writes a chart as a changes file, four bars a line: the chords of a score or a MIDI file as a page of text.
// The format is described in README.md, "The changes file".
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

struct WrittenChart {
  std::string text;
  std::vector<int> moved;  ///< bars, from 1, with a chord that begins within a beat and is written on it
};

/// The changes written over a solo as a chart of the solo's bars, with N.C. where no chord sounds. The pickup has none.
Changes chart_of_solo(const Solo& solo, const Changes& changes);

/// `changes` have bars, and spans without gaps. A chord begins on a beat, since a chart counts in beats.
WrittenChart write_chart(const Changes& changes, const std::optional<double>& tempo_bpm);

}  // namespace insideline::io
