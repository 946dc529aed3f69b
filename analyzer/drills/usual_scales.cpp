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
  std::string_view name;
  std::array<int, scale_tones> alter;
};

// The scale that teachers set over a chord that stands alone; others are as good. Source: R. Hutchinson, Music Theory
// for the 21st-Century Classroom, table 31.10.3, the first where it names two (over m7b5 locrian, then locrian natural
// 2); the suspended row is common practice, no source.
constexpr std::array usual_scales{
    UsualScale{ChordQuality::major, "major", {0, 0, 0, 0, 0, 0, 0}},
    UsualScale{ChordQuality::minor, "dorian", {0, 0, -1, 0, 0, 0, -1}},
    UsualScale{ChordQuality::dominant, "mixolydian", {0, 0, 0, 0, 0, 0, -1}},
    UsualScale{ChordQuality::half_diminished, "locrian", {0, -1, -1, 0, -1, -1, -1}},
    UsualScale{ChordQuality::diminished, "whole and half steps in turn", {0, 0, -1, 0, -1, -1, -2}},
    UsualScale{ChordQuality::augmented, "lydian augmented", {0, 0, 0, 1, 1, 0, 0}},
    UsualScale{ChordQuality::suspended, "mixolydian", {0, 0, 0, 0, 0, 0, -1}},
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

std::string_view usual_scale_name(const Chord& chord) {
  if (is_altered(chord)) return "altered";
  const auto* const scale = std::ranges::find(usual_scales, quality(chord), &UsualScale::quality);
  if (scale == usual_scales.end()) return {};
  const bool fits = std::ranges::all_of(chord.tones, [&](const Degree& tone) {
    return scale->alter.at(static_cast<std::size_t>(tone.number - 1) % scale_tones) == tone.alter;
  });
  return fits ? scale->name : std::string_view();
}

std::optional<Degree> cell_tone(const Chord& chord, const CellTone& tone) {
  if (tone.exact) return tone.asked;
  const auto own = own_tone(chord, tone.asked.number);
  // 9 is welcome over a half-diminished chord, but it is of another scale than the usual one.
  const bool of_another_scale =
      own && own->number > 7 && quality(chord) == ChordQuality::half_diminished && !has_tone(chord.tones, *own);
  if (own && !of_another_scale) return own;
  return scale_tone(chord, tone.asked.number);
}

}  // namespace insideline
