// Whether a tick of a MIDI file lies on a place that notation has a name for.
#pragma once

#include "analyzer/model/beats.hpp"
#include "io/midi/midi_song.hpp"

#include <cstdint>
#include <optional>
#include <span>

namespace insideline::io {

/// The exact place in quarters: twos down to 32nds, triplets and their halves, and fives, sevens and nines also where
/// the file had to round them to a tick. None off the grid.
std::optional<Beats> page_place(std::uint32_t ticks, std::uint32_t ticks_per_quarter);

/// True for the start and quarters of a quarter note and for its thirds: where most notes of any score begin.
bool is_plain_place(std::uint32_t ticks, std::uint32_t ticks_per_quarter);

}  // namespace insideline::io
