#include "analyzer/model/chord.hpp"

#include <algorithm>

namespace insideline {
namespace {

bool has(const Chord& chord, const Degree& degree) {
  return std::ranges::find(chord.tones, degree) != chord.tones.end();
}

std::optional<Degree> first_of(const Chord& chord, std::initializer_list<Degree> candidates) {
  for (const Degree& degree : candidates)
    if (has(chord, degree)) return degree;
  return std::nullopt;
}

std::optional<Degree> member_with(const std::vector<Degree>& members, const Chord& chord, int pitch_class) {
  constexpr int octave = 12;
  const int above_root = (pitch_class - insideline::pitch_class(chord.root) + octave) % octave;
  const auto found = std::ranges::find(members, above_root, pitch_class_above_root);
  if (found == members.end()) return std::nullopt;
  return *found;
}

}  // namespace

bool same_chord(const Chord& a, const Chord& b) {
  return a.root == b.root && a.tones == b.tones && a.tensions == b.tensions && a.bass == b.bass;
}

ChordQuality quality(const Chord& chord) {
  const bool minor_third = has(chord, {3, -1});
  const bool major_third = has(chord, {3, 0});
  const bool minor_seventh = has(chord, {7, -1});
  if (minor_third && has(chord, {5, -1}))
    return minor_seventh ? ChordQuality::half_diminished : ChordQuality::diminished;
  if (minor_third) return ChordQuality::minor;
  if (major_third && minor_seventh) return ChordQuality::dominant;
  if (major_third && has(chord, {5, 1}) && !has(chord, {7, 0})) return ChordQuality::augmented;
  if (major_third) return ChordQuality::major;
  if (has(chord, {4, 0}) || has(chord, {2, 0}) || has(chord, {11, 0})) return ChordQuality::suspended;
  if (chord.tones.size() == 2 && has(chord, {5, 0})) return ChordQuality::power;
  return ChordQuality::other;
}

std::optional<Degree> third_of(const Chord& chord) { return first_of(chord, {{3, 0}, {3, -1}, {4, 0}, {11, 0}}); }

std::optional<Degree> seventh_of(const Chord& chord) { return first_of(chord, {{7, -1}, {7, 0}, {7, -2}, {6, 0}}); }

std::vector<Degree> guide_tones(const Chord& chord) {
  std::vector<Degree> guides;
  if (const auto third = third_of(chord)) guides.push_back(*third);
  if (const auto seventh = seventh_of(chord)) guides.push_back(*seventh);
  return guides;
}

std::optional<Degree> tone_with(const Chord& chord, int pitch_class) {
  return member_with(chord.tones, chord, pitch_class);
}

std::optional<Degree> tension_with(const Chord& chord, int pitch_class) {
  return member_with(chord.tensions, chord, pitch_class);
}

std::string to_string(ChordQuality quality) {
  switch (quality) {
    case ChordQuality::major: return "major";
    case ChordQuality::minor: return "minor";
    case ChordQuality::dominant: return "dominant";
    case ChordQuality::half_diminished: return "half-diminished";
    case ChordQuality::diminished: return "diminished";
    case ChordQuality::augmented: return "augmented";
    case ChordQuality::suspended: return "suspended";
    case ChordQuality::power: return "power";
    case ChordQuality::other: return "other";
  }
  return {};
}

}  // namespace insideline
