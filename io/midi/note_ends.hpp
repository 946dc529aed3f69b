// How long the notes of a played line are on the page.
#pragma once

#include "io/midi/quantize.hpp"

#include <span>
#include <vector>

namespace insideline::io {

/// Played lengths are shorter than written ones: a note is written up to the next one unless the silence between them
/// is heard as a rest, and then to the nearest eighth or place of its own subdivision.
std::vector<WrittenRhythm> with_ends(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                                     std::span<const Subdivision> figures, std::span<const Placed> placed,
                                     const Manner& manner);

}  // namespace insideline::io
