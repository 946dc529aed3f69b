#include "analyzer/harmony/slash_chord.hpp"

#include <algorithm>
#include <set>

namespace insideline {

std::optional<std::string> suspended_over_bass(const Chord& chord) {
  if (!chord.bass || tone_with(chord, pitch_class(*chord.bass))) return std::nullopt;
  std::set<int> above_bass;
  const int root_above = pitch_class(chord.root) - pitch_class(*chord.bass) + semitones_in_octave;
  for (const Degree& tone : chord.tones)
    above_bass.insert((root_above + pitch_class_above_root(tone)) % semitones_in_octave);
  const auto has = [&](const Degree& degree) { return above_bass.contains(pitch_class_above_root(degree)); };
  if (has({3, 0}) || has({3, -1}) || !has({4, 0}) || !has({7, -1})) return std::nullopt;
  const std::string bass = to_string(*chord.bass);
  if (has({9, -1})) return bass + "7sus4b9";
  if (!has({9, 0})) return bass + "7sus4";
  return bass + (has({13, 0}) ? "13sus4" : "9sus4");
}

}  // namespace insideline
