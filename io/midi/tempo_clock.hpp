// When each tick of a MIDI file sounds. Without a tempo it is 120 quarter notes a minute (Standard MIDI Files 1.0).
#pragma once

#include "io/midi/smf_events.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

class TempoClock {
 public:
  TempoClock(std::span<const TempoMark> tempos, std::uint32_t ticks_per_quarter);

  /// Seconds from the start of the file. Cheapest for times in order.
  [[nodiscard]] double seconds_at(double ticks) const;

 private:
  struct Stretch {
    double ticks = 0.0;
    double seconds = 0.0;
    double seconds_per_tick = 0.0;
  };
  std::vector<Stretch> stretches_;  // the first begins at tick 0
  mutable std::size_t last_ = 0;    // where the last answer was found: a hint only
};

}  // namespace insideline::io
