// The beats under a performance: where each falls on the page and in seconds.
#pragma once

#include "analyzer/model/beats.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

/// Places on the page are counted in 6720ths of a quarter note, which holds twos to 64, threes, fives and sevens,
/// so that finding them needs no fractions.
constexpr std::int64_t units_per_quarter = 6720;

inline Beats beats_of(std::int64_t units) { return {units, units_per_quarter}; }

/// How a beat divides: in two, or, in 6/8 and its kin, in three.
enum class BeatKind : std::uint8_t { simple, compound };

struct BeatCell {
  std::int64_t onset = 0;  ///< in units from bar 1 of the file
  std::int64_t length = units_per_quarter;
  double onset_seconds = 0.0;
  double length_seconds = 0.5;  ///< > 0
  BeatKind kind = BeatKind::simple;
};

struct TimedNote {
  double onset_seconds = 0.0;
  double end_seconds = 0.0;  ///< after the onset
};

/// The cell that sounds at `seconds`; the first or last for a time outside. `cells` is not empty.
/// `hint` is a cell at or before it, to look from.
std::size_t cell_at(std::span<const BeatCell> cells, double seconds, std::size_t hint);

}  // namespace insideline::io
