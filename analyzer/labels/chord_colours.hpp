// A chord as the labelling asks about it: its tones as they are played, and what each other note would be over it.
#pragma once

#include "analyzer/labels/note_context.hpp"
#include "analyzer/model/chord.hpp"

#include <optional>

namespace insideline {

/// A chord as the labelling asks about it. Its tones are those that are played: players fill a bare diminished triad
/// up to the seventh chord and hear the bass of a slash chord as a member (common practice, no source). The thirteenth
/// over a minor seventh chord is disputed (Nettles & Graf against common practice).
struct ChordColours {
  explicit ChordColours(const Chord& chord);

  [[nodiscard]] std::optional<Colour> colour(int pitch_class) const;

  /// Semitones above the root, 0..11.
  [[nodiscard]] int above(int pitch_class) const { return (pitch_class - root + pitch_classes) % pitch_classes; }

  int root = 0;
  bool dominant = false;
  bool is_alt = false;
  PitchClassSet tones = 0;
  PitchClassSet tensions = 0;
  PitchClassSet altered = 0;
  PitchClassSet disputed = 0;
  PitchClassSet blue = 0;
  PitchClassSet avoided = 0;
  PitchClassSet never = 0;  ///< the eleventh over a major seventh chord is no colour at all
};

}  // namespace insideline
