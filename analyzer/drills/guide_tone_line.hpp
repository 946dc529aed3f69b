// Chooses the guide tones of each chord: third and seventh of a chord go to third and seventh of the next by the least
// motion there is. Idea and measure: Tymoczko, The Geometry of Musical Chords, Science 313 (2006) 72-74.
#pragma once

#include "analyzer/drills/best_figures.hpp"

namespace insideline {

/// The smallest motion in semitones from these tones, the upper first, to the guide tones of `chord` in as many voices,
/// in whatever octave.
int least_guide_motion(std::span<const int> from, const Chord& chord);

/// As best_figures(), for DrillKind::guide_tones: the motion is the least at every change that the range allows.
ChosenFigures best_guide_tones(const ConnectionRules& rules, std::span<const DrillSegment> segments,
                               std::span<const DrillFigures* const> sets);

}  // namespace insideline
