#include "analyzer/drills/usual_scales.hpp"

#include "analyzer/drills/figures.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

constexpr std::size_t scale_tones = 7;

/// How far each of the seven tones is moved against the major scale.
struct UsualScale {
  ChordQuality quality;
  std::array<int, scale_tones> alter;
};

// The scale that teachers set over a chord that stands alone. Common practice, no source; other scales are as good.
constexpr std::array usual_scales{
    UsualScale{ChordQuality::major, {0, 0, 0, 0, 0, 0, 0}},                 // major
    UsualScale{ChordQuality::minor, {0, 0, -1, 0, 0, 0, -1}},               // dorian
    UsualScale{ChordQuality::dominant, {0, 0, 0, 0, 0, 0, -1}},             // mixolydian
    UsualScale{ChordQuality::half_diminished, {0, -1, -1, 0, -1, -1, -1}},  // locrian
    UsualScale{ChordQuality::diminished, {0, 0, -1, 0, -1, -1, -2}},        // whole and half steps in turn
    UsualScale{ChordQuality::augmented, {0, 0, 0, 1, 1, 0, 0}},             // the major scale with #4 and #5
    UsualScale{ChordQuality::suspended, {0, 0, 0, 0, 0, 0, -1}},            // mixolydian
};

constexpr std::array<int, scale_tones> altered_scale{0, -1, 0, 1, 1, -1, -1};

/// As the symbol names it, an octave up or not: 9 for 2, 11 for 4, 13 for 6.
std::optional<Degree> named_tone(const Chord& chord, int number) {
  constexpr int octave = 7;
  for (const Degree& tone : chord.tones)
    if (tone.number == number || tone.number == number + octave || tone.number + octave == number)
      return Degree{number, tone.alter};
  return std::nullopt;
}

}  // namespace

std::optional<Degree> scale_tone(const Chord& chord, int number) {
  if (number < 1) return std::nullopt;
  const std::size_t place = static_cast<std::size_t>(number - 1) % scale_tones;
  if (const auto named = named_tone(chord, number)) return named;
  if (is_altered(chord)) return Degree{number, altered_scale.at(place)};
  const auto* const scale = std::ranges::find(usual_scales, quality(chord), &UsualScale::quality);
  if (scale == usual_scales.end()) return std::nullopt;
  return Degree{number, scale->alter.at(place)};
}

std::optional<Degree> cell_tone(const Chord& chord, const CellTone& tone) {
  if (tone.exact) return tone.asked;
  if (const auto own = own_tone(chord, tone.asked.number)) return own;
  return scale_tone(chord, tone.asked.number);
}

}  // namespace insideline
