// How somebody plays, heard from the notes alone: how far they swing, how far behind the beat they are, how evenly.
#pragma once

#include "io/midi/rhythm_path.hpp"

#include <span>
#include <vector>

namespace insideline::io {

/// Long to short, from where the off-beat falls in its beat: 2/3 is 2. Source: beat-upbeat ratio, Benadon,
/// Ethnomusicology 50(1), 2006.
double swing_ratio(double off_beat);

/// First guesses from how the notes are spread over their beats, the most probable first.
std::vector<Manner> first_manners(std::span<const TimedNote> notes, std::span<const BeatCell> cells);

/// The manner that explains a reading best.
Manner heard_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                    std::span<const Subdivision> figures, std::span<const Placed> placed, const Manner& before);

/// One manner a note: the off-beat of each phrase, drawn towards that of the whole where a phrase has few. Only `whole`
/// where no phrase swings otherwise.
std::vector<Manner> manners_by_phrase(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                                      std::span<const Subdivision> figures, std::span<const Placed> placed,
                                      const Manner& whole);

}  // namespace insideline::io
