#include "analyzer/labels/tick_scale.hpp"

#include "analyzer/metre.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace insideline {

TickScale::TickScale(const Solo& solo, const Harmony& harmony, const Settings& settings) {
  take(settings.held_tension);
  take(settings.phrase_gap);
  for (const Bar& bar : solo.bars) {
    take(bar.onset);
    take(bar.length);
    take(Beats(1, bar.meter.unit));
  }
  for (const SoundingChord& sounding : harmony.chords) {
    take(sounding.onset);
    take(sounding.duration);
  }
  for (const Note& note : solo.notes) {
    take(note.onset);
    take(note.duration);
  }
  for (std::uint64_t left = small_denominators_; left != 0; left &= left - 1) make_fit(std::countr_zero(left));
  constexpr Ticks halves_of_felt_beats = 2;
  if (exact_) per_quarter_ *= halves_of_felt_beats;
}

Ticks TickScale::rounded(const Beats& time) const {
  if (exact_) throw std::overflow_error("a place in the music is too far away");
  return std::llround(to_double(time) * static_cast<double>(per_quarter_));
}

void TickScale::take(const Beats& time) {
  constexpr std::int64_t small = 64;
  if (time.denominator() < small)
    small_denominators_ |= std::uint64_t{1} << static_cast<std::uint64_t>(time.denominator());
  else
    make_fit(time.denominator());
}

void TickScale::make_fit(std::int64_t denominator) {
  constexpr Ticks most = Ticks{1} << 32;
  constexpr Ticks fine_grid = 720720;
  if (!exact_ || per_quarter_ % denominator == 0) return;
  const Ticks factor = denominator / std::gcd(per_quarter_, denominator);
  exact_ = factor <= most / per_quarter_;
  per_quarter_ = exact_ ? per_quarter_ * factor : fine_grid;
}

BarInTicks::BarInTicks(const Bar& bar, const TickScale& scale)
    : meter(bar.meter),
      first_beat(scale.ticks(bar.onset) - (bar.number == 0 ? scale.ticks(bar_length(bar.meter) - bar.length) : 0)),
      beat(std::max<Ticks>(scale.ticks(beat_length(bar.meter)), 1)),
      felt(std::max<Ticks>(scale.ticks(felt_beat(bar.meter)), 1)) {}

}  // namespace insideline
