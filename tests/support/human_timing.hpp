// Plays a written solo the way fingers do: at a tempo, with a swing, and never quite in time. Seeded, so that a
// take can be played again.
#pragma once

#include "analyzer/model/solo.hpp"

#include <vector>

namespace insideline::tests {

struct Take {
  double tempo_bpm = 120.0;     ///< quarter notes per minute
  double swing_ratio = 1.0;     ///< long to short of a pair of eighths
  double jitter_seconds = 0.0;  ///< standard deviation of onsets and ends, Gaussian
  double late_seconds = 0.0;    ///< every onset, behind the beat
  unsigned seed = 1;
};

struct PlayedNote {
  double onset_seconds = 0.0;  ///< from where the solo's first bar begins, after a lead of one second
  double end_seconds = 0.0;
};

/// Where a place of the page sounds: eighths of a beat that holds nothing finer are swung, the rest is even.
/// Notes stay in order, each at least 8 ms after the one before; grace notes are squeezed in before their note.
std::vector<PlayedNote> played(const Solo& solo, const Take& take);

/// Silence before the solo's first bar begins, which early notes fall into.
constexpr double lead_seconds = 1.0;

}  // namespace insideline::tests
