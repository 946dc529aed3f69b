// Whether a played line has to do with the beats of its file at all. Who plays without a click, while the program that
// records counts on at a tempo of its own, is read into bars that mean nothing.
// Source of the test: Rayleigh's, in K. V. Mardia and P. E. Jupp, Directional Statistics, from memory.
#pragma once

#include "io/midi/beat_cells.hpp"

#include <span>

namespace insideline::io {

/// False where the places of the notes in their beats are spread as evenly as those of a line that knows nothing of the
/// beats, whatever the notes divide the beat into; true for a line too short to tell. `cells` cover the notes.
bool keeps_to_beats(std::span<const TimedNote> notes, std::span<const BeatCell> cells);

}  // namespace insideline::io
