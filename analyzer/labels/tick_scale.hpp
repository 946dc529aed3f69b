// Exact time as whole numbers: the labelling compares times far more often than it reads them.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/labels/note_context.hpp"

namespace insideline {

/// Turns exact time into whole ticks: as many to the quarter as every time of the solo needs. Where no number of
/// ordinary size does (only a damaged or hostile file gets there), times are rounded to a fine grid.
class TickScale {
 public:
  TickScale(const Solo& solo, const Harmony& harmony, const Settings& settings);

  /// Throws std::overflow_error where the place is too far away.
  [[nodiscard]] Ticks ticks(const Beats& time) const;

 private:
  void take(const Beats& time);

  Ticks per_quarter_ = 24;
  Ticks last_taken_ = 1;  ///< the denominator of it
  bool exact_ = true;
};

/// The bar under the note, in ticks; worked out once a bar.
struct BarInTicks {
  BarInTicks(const Bar& bar, const TickScale& scale);

  Meter meter;
  Ticks first_beat;
  Ticks beat;
  Ticks felt;
};

}  // namespace insideline
