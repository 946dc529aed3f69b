#include "analyzer/tritone_substitutes.hpp"

#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

// Semitones above the dominant that sounds.
constexpr int substitute_root = 6;
constexpr int substitute_fifth = 1;
constexpr PitchClassSet substitute_tones = 1U << 6U | 1U << 10U | 1U << 1U | 1U << 4U;

bool names(const Chord& chord, int above_root) {
  return std::ranges::any_of(chord.tones,
                             [&](const Degree& tone) { return pitch_class_above_root(tone) == above_root; });
}

bool is_plain_dominant(const Chord& chord) {
  return quality(chord) == ChordQuality::dominant && !is_altered(chord) && !names(chord, substitute_root) &&
         !names(chord, substitute_fifth);
}

/// Where the notes from `first` on stop being tones of the substitute over one and the same chord.
std::size_t end_of_run(const HeardLine& line, std::size_t first, PitchClassSet tones) {
  std::size_t end = first;
  while (end < line.notes.size() && line.notes[end].sounding == line.notes[first].sounding &&
         contains(tones, line.notes[end].pitch_class))
    ++end;
  return end;
}

/// Root and fifth, which the dominant does not have, and another tone of it.
bool spells_substitute(const HeardLine& line, std::size_t first, std::size_t end, int root) {
  constexpr std::size_t fewest = 3;
  if (end - first < fewest) return false;
  unsigned heard = 0;
  for (std::size_t i = first; i < end; ++i) heard |= 1U << static_cast<unsigned>(line.notes[i].pitch_class);
  const unsigned both = moved_up(1U << substitute_root | 1U << substitute_fifth, root);
  return (heard & both) == both && heard != both;
}

}  // namespace

std::vector<TritoneSubstitute> find_tritone_substitutes(const HeardLine& line, const Harmony& harmony) {
  std::vector<TritoneSubstitute> found;
  std::optional<std::size_t> stretch;
  PitchClassSet tones = 0;  // of the substitute of the chord there; none where it is no plain dominant
  std::size_t end = 0;
  for (std::size_t i = 0; i < line.notes.size(); i = std::max(end, i + 1)) {
    if (!line.notes[i].sounding) continue;
    const std::size_t index = line.stretches[*line.notes[i].sounding].first;
    const Chord& chord = harmony.chords[index].chord;
    if (line.notes[i].sounding != stretch) {
      stretch = line.notes[i].sounding;
      tones = is_plain_dominant(chord) ? moved_up(substitute_tones, pitch_class(chord.root)) : PitchClassSet{};
    }
    end = end_of_run(line, i, tones);
    if (spells_substitute(line, i, end, pitch_class(chord.root)))
      found.push_back({line.notes[i].note, line.notes[end - 1].note, index});
  }
  return found;
}

}  // namespace insideline
