// The vocabulary of the blues and of the bebop scales. Textbook terms; common practice, no source.
#pragma once

#include "analyzer/heard_line.hpp"

#include <vector>

namespace insideline {

/// The minor third over a chord with the major one, the minor seventh over a major chord (which has the major seventh,
/// a sixth, or none), and among notes of the minor pentatonic the flat fifth over a chord with the natural one. A note
/// that only fills a whole step in half steps, or leads into its target, alone or as part of an enclosure, is none; nor
/// is one that is held into the next chord or belongs to another chord that the line plays, unless it slides up into
/// the third. A grace note that slides up into the third is one. In order. `analysis` has its labels, arpeggios and
/// harmony.
std::vector<BlueNote> find_blue_notes(const HeardLine& line, const Solo& solo, const Analysis& analysis);

/// Five notes or more, four of them different, each the next one up or down in the minor pentatonic on the root of the
/// chord that the first is heard against, or on the tonic of the key, with no rest between; the flat fifth may lie
/// between 4 and 5, as in the blues scale. No two share a note.
std::vector<PentatonicRun> find_pentatonic_runs(const HeardLine& line, const Solo& solo, const Harmony& harmony);

/// Off the beat, in a run by step of five notes or more: 7 between 1 and b7 of a dominant, #5 between 5 and 6 of a
/// major chord, 3 between b3 and 4 of a minor one.
std::vector<AddedHalfStep> find_added_half_steps(const HeardLine& line, const Harmony& harmony);

}  // namespace insideline
