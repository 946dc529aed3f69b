#include "analyzer/tritone_substitutes.hpp"

#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

// Semitones above the dominant that sounds.
constexpr int substitute_root = 6;
constexpr int substitute_fifth = 1;
constexpr std::array substitute_tones{substitute_root, 10, substitute_fifth, 4};

bool names(const Chord& chord, int above_root) {
  return std::ranges::any_of(chord.tones,
                             [&](const Degree& tone) { return pitch_class_above_root(tone) == above_root; });
}

bool is_plain_dominant(const Chord& chord) {
  return quality(chord) == ChordQuality::dominant && !is_altered(chord) && !names(chord, substitute_root) &&
         !names(chord, substitute_fifth);
}

}  // namespace

std::vector<TritoneSubstitute> find_tritone_substitutes(const HeardLine& line, const Harmony& harmony) {
  std::vector<TritoneSubstitute> found;
  constexpr std::size_t fewest = 3;
  std::size_t end = 0;
  for (std::size_t i = 0; i < line.notes.size(); i = end) {
    end = i + 1;
    if (!line.notes[i].sounding) continue;
    const std::size_t index = line.stretches[*line.notes[i].sounding].first;
    const Chord& chord = harmony.chords[index].chord;
    if (!is_plain_dominant(chord)) continue;
    const auto above_root = [&](std::size_t note) {
      return pitch_class_of(line.notes[note].pitch_class - pitch_class(chord.root));
    };
    unsigned heard = 0;
    std::size_t note = i;
    for (; note < line.notes.size() && line.notes[note].sounding == line.notes[i].sounding &&
           std::ranges::find(substitute_tones, above_root(note)) != substitute_tones.end();
         ++note)
      heard |= 1U << static_cast<unsigned>(above_root(note));
    constexpr unsigned both =
        1U << static_cast<unsigned>(substitute_root) | 1U << static_cast<unsigned>(substitute_fifth);
    if (note > end) end = note;
    if (note - i >= fewest && (heard & both) == both && heard != both)
      found.push_back({line.notes[i].note, line.notes[note - 1].note, index});
  }
  return found;
}

}  // namespace insideline
