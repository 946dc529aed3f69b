// How far somebody swings and how evenly, heard from a reading of what was played.
#pragma once

#include "io/midi/rhythm_path.hpp"

#include <span>

namespace insideline::io {

/// Long to short, from where the off-beat falls in its beat: 2/3 is 2. Source: beat-upbeat ratio, Benadon,
/// Ethnomusicology 50(1), 2006.
double swing_ratio(double off_beat);

/// The manner that explains a reading best, with the lateness of `before`.
Manner heard_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                    std::span<const Subdivision> figures, std::span<const Placed> placed, const Manner& before);

}  // namespace insideline::io
