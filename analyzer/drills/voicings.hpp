// Chords as an accompanist sounds them: a bass, and four voices above that move as little as they can from chord to
// chord. What is least, and that third and seventh are what must not be missing: Tymoczko, The Geometry of Musical
// Chords, Science 313 (2006) 72-74; Hutchinson, Music Theory for the 21st-Century Classroom, 31.7. Where the voices lie
// is common practice, no source.
#pragma once

#include "analyzer/model/changes.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace insideline {

constexpr std::size_t upper_voices = 4;

/// MIDI numbers, sounding.
struct Voicing {
  int bass = 36;                           ///< root, or the bass of a slash chord: C2 to B2
  std::array<int, upper_voices> voices{};  ///< from below, E3 to E5; within a tenth where the chord has three tones
  friend bool operator==(const Voicing&, const Voicing&) = default;
};

/// The pitch classes of the four voices: third and seventh first, then what the symbol adds, then fifth and root; the
/// root twice where the chord has three tones.
std::array<int, upper_voices> voiced_classes(const Chord& chord);

/// One for each chord. The whole motion of the upper voices is the least that their register allows.
std::vector<Voicing> smooth_voicings(const std::vector<SoundingChord>& chords);

/// Semitones that the upper voices move, each to its own in the other voicing, the lowest to the lowest.
int motion_of(const Voicing& from, const Voicing& to);

}  // namespace insideline
