// Where the beat of a known tempo lies, from nothing but the notes. Two places are always possible, half a beat apart:
// a line of even eighths fits both.
#pragma once

#include "io/audio/heard_line.hpp"

#include <span>

namespace insideline::io {

struct BeatPhase {
  double likelier = 0.0;  ///< seconds of some beat
  double other = 0.0;     ///< about half a beat off
  /// By so much is the likelier one ahead: the logarithm of how much likelier it is.
  double lead = 0.0;
};

/// `notes` are one at least, `beat_seconds` > 0.
BeatPhase beat_phase(std::span<const HeardNote> notes, double beat_seconds);

}  // namespace insideline::io
