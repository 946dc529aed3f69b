#include "io/midi/tempo_clock.hpp"

namespace insideline::io {

TempoClock::TempoClock(std::span<const TempoMark> tempos, std::uint32_t ticks_per_quarter) {
  constexpr double microseconds = 1e-6;
  const auto per_tick = [&](std::uint32_t quarter_microseconds) {
    return quarter_microseconds * microseconds / ticks_per_quarter;
  };
  stretches_.push_back({0.0, 0.0, per_tick(TempoMark{}.quarter_microseconds)});
  for (const TempoMark& mark : tempos) {
    const Stretch& before = stretches_.back();
    const double seconds = before.seconds + (mark.ticks - before.ticks) * before.seconds_per_tick;
    stretches_.push_back({static_cast<double>(mark.ticks), seconds, per_tick(mark.quarter_microseconds)});
  }
}

double TempoClock::seconds_at(double ticks) const {
  while (last_ > 0 && stretches_[last_].ticks > ticks) --last_;
  while (last_ + 1 < stretches_.size() && stretches_[last_ + 1].ticks <= ticks) ++last_;
  const Stretch& stretch = stretches_[last_];
  return stretch.seconds + (ticks - stretch.ticks) * stretch.seconds_per_tick;
}

}  // namespace insideline::io
