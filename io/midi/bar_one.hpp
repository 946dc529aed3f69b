// Where bar 1 of a MIDI file begins, where the file does not say.
#pragma once

#include "io/midi/timeline.hpp"
#include "io/midi/written_line.hpp"

#include <optional>
#include <span>
#include <string>

namespace insideline::io {

struct BarOne {
  Beats onset;      ///< from the start of the file
  std::string why;  ///< empty where nothing had to be decided
};

/// Empty bars before a recorded line are a count-in, and notes in the second half of the last of them a pickup.
BarOne bar_one_of_recording(const Timeline& timeline, std::span<const LineNote> line);

/// Of tapped beats without numbers, the beat that carries most: long notes begin on downbeats.
/// Idea: Lerdahl & Jackendoff, A Generative Theory of Tonal Music (1983), metrical preference rule for length.
BarOne bar_one_by_accent(const Timeline& timeline, std::span<const LineNote> line);

}  // namespace insideline::io
