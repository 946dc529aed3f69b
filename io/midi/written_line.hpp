// A melodic line of a MIDI file on the page: as it stands where it is on the grid, quantized where it was played.
#pragma once

#include "io/midi/midi_line.hpp"
#include "io/midi/quantize.hpp"
#include "io/midi/tempo_clock.hpp"
#include "io/midi/timeline.hpp"

#include <optional>
#include <span>
#include <vector>

namespace insideline::io {

struct LineNote {
  Beats onset;     ///< from the start of the file
  Beats duration;  ///< 0 for a grace note
  bool grace = false;
};

/// The line as it stands; none where a note lies off the grid, so that it must have been played. A short note off the
/// grid right before another is a grace note.
std::optional<std::vector<LineNote>> line_on_grid(std::span<const MidiNote> notes, const TempoClock& clock,
                                                  std::uint32_t ticks_per_quarter);

/// True for a line that lies on the grid but swings all the way: every off-beat at the same two thirds or three
/// quarters of its beat, or nearly every one at the same odder place, and not one at the half. Programs play swing so;
/// a musician writes eighths.
bool swings_on_grid(std::span<const LineNote> line);

std::vector<TimedNote> timed(std::span<const MidiNote> notes, const TempoClock& clock);

std::vector<LineNote> line_played(const Quantized& quantized);

}  // namespace insideline::io
