// Stacks of thirds that the line spells whatever chord sounds: E minor over D7, A flat major over a chord that has
// left. A line spells one where at least three notes run one way by leaps, each to the next tone of a triad or seventh
// chord. Upper structures and superimposed chords: common practice, no source.
#pragma once

#include "analyzer/arpeggio_runs.hpp"

#include <span>
#include <vector>

namespace insideline {

/// The tones of a played chord, from its root up; the root as written is of no interest.
Stack stack_of(const PlayedChord& chord);

/// All that are spelled and are not part of one of `own`, in order of their first note. They end where the chord
/// changes, unless the old chord goes on in the notes behind the change, or the new one begins in those before it. The
/// chord they are heard against is the one they spell, if it sounds below them or right before or after, else the one
/// below most of their notes, or the last if it alone has all the others as tones. `stacks` run parallel to the
/// stretches.
std::vector<Run> played_runs(const HeardLine& line, std::span<const Stack> stacks, std::span<const NoteLabel> labels,
                             std::span<const Run> own);

}  // namespace insideline
