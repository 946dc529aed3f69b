// Figures of the lines that have an aim: guide tones, tones that enclose the third of the next chord, and arpeggios
// that come down into the next chord. Guide tones and what stands for them: Hutchinson, Music Theory for the
// 21st-Century Classroom, 31.7. Which tones enclose is common practice, no source: a half step from below, the step of
// the scale from above.
#pragma once

#include "analyzer/drills/drill_rhythm.hpp"
#include "analyzer/drills/drill_settings.hpp"
#include "analyzer/drills/figures.hpp"
#include "analyzer/model/chord.hpp"

#include <optional>

namespace insideline {

/// The two tones of a chord that guide: third and seventh or what stands for them. Where the chord has no seventh its
/// root takes that voice, where it has no third its fifth.
struct GuidePair {
  Degree third;
  Degree seventh;
  bool has_third = true;
  bool has_seventh = true;
};
GuidePair guide_pair(const Chord& chord);

/// The tones of a guide-tone line over a chord in so many voices, as pitch classes: both, but in one voice only those
/// that the chord has of its own, if it has one.
std::vector<int> guide_classes(const Chord& chord, int voices);

/// A tone that is closed in on: the third, or the fourth that stands for it.
struct EnclosedTone {
  int pitch_class = 0;
  int above = 1;  ///< semitones up to the enclosing tone
  int below = 1;
  friend bool operator==(const EnclosedTone&, const EnclosedTone&) = default;
};
/// None for a chord that has neither.
std::optional<EnclosedTone> enclosed_tone(const Chord& chord);

/// One tone, or two with the upper first, for each way to place them in the range.
DrillFigures guide_tone_figures(const Chord& chord, const DrillSettings& settings);

/// A line that ends on the two tones around the third of `next`; without one, it is a plain line.
DrillFigures enclosing_figures(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings,
                               const Chord* next);

/// A tone of the chord, then the chord from above straight down.
DrillFigures descending_figures(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings);

}  // namespace insideline
