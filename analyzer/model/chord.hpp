// A chord as players think of it: a root, the tones the symbol names, the
// tensions it welcomes and the notes it avoids, all as degrees above the root.
// How symbols are read is in analyzer/harmony/.
#pragma once

#include "analyzer/model/pitch.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

struct Chord {
  std::string symbol;  ///< as the source writes it, for the reader's eye only
  NoteName root;
  std::vector<Degree> tones;     ///< root first, then up the stack of thirds; extensions the symbol names included
  std::vector<Degree> tensions;  ///< welcome colours that are not tones; up the stack
  std::vector<Degree> avoid;     ///< scale notes not to be held; up the stack
  std::optional<NoteName> bass;  ///< after the slash, where it differs from the root
};

/// The families that chords are sorted into.
enum class ChordQuality : std::uint8_t {
  major,
  minor,
  dominant,
  half_diminished,
  diminished,
  augmented,
  suspended,
  power,
  other
};

/// Same root, tones, tensions and bass; the spelling of the symbol does not matter.
bool same_chord(const Chord& a, const Chord& b);

ChordQuality quality(const Chord& chord);

/// The third, or the fourth (written 4 or 11) that stands for it in a sus chord.
std::optional<Degree> third_of(const Chord& chord);
/// The seventh, or the sixth that stands for it in a sixth chord.
std::optional<Degree> seventh_of(const Chord& chord);
/// The tones that tell the chord from others: third and seventh, as far as it has them.
std::vector<Degree> guide_tones(const Chord& chord);

/// The pitch class (0..11) of the note that stands at `degree` of `chord`.
inline int pitch_class_at(const Chord& chord, const Degree& degree) {
  return (pitch_class(chord.root) + pitch_class_above_root(degree)) % semitones_in_octave;
}

/// The tone or tension of `chord` with this pitch class (0..11), if it is one.
std::optional<Degree> tone_with(const Chord& chord, int pitch_class);
std::optional<Degree> tension_with(const Chord& chord, int pitch_class);

/// The chord moved by `by`: root and bass move, and so does the symbol's text.
Chord transposed(const Chord& chord, const Interval& by);

/// "dominant", "half-diminished", ...
std::string to_string(ChordQuality quality);

}  // namespace insideline
