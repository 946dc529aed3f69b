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
  [[nodiscard]] Ticks ticks(const Beats& time) const {
    Ticks result = 0;
    const Ticks unit = time.denominator() == 1 ? per_quarter_ : per_quarter_ / time.denominator();
    if (exact_ && !__builtin_mul_overflow(time.numerator(), unit, &result)) return result;
    return rounded(time);
  }

 private:
  [[nodiscard]] Ticks rounded(const Beats& time) const;
  void take(const Beats& time);
  void make_fit(std::int64_t denominator);

  Ticks per_quarter_ = 24;
  std::uint64_t small_denominators_ = 0;  ///< bit n: a time in n-ths of a quarter; nearly all are such
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
