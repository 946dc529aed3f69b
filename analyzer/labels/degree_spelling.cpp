#include "analyzer/labels/degree_spelling.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

using DegreeNames = std::array<Degree, semitones_in_octave>;

// By semitones above the root; common practice, no source.
constexpr DegreeNames rising_names = {
    {{1, 0}, {9, -1}, {9, 0}, {9, 1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {5, 1}, {13, 0}, {7, -1}, {7, 0}}};
constexpr DegreeNames falling_names = {
    {{1, 0}, {9, -1}, {9, 0}, {3, -1}, {3, 0}, {11, 0}, {5, -1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0}}};
constexpr DegreeNames colour_names = {
    {{1, 0}, {9, -1}, {9, 0}, {9, 1}, {3, 0}, {11, 0}, {11, 1}, {5, 0}, {13, -1}, {13, 0}, {7, -1}, {7, 0}}};

std::size_t above_root(const Chord& chord, int sounding) {
  return static_cast<std::size_t>(pitch_class_of(sounding - pitch_class(chord.root)));
}

/// By number of the degree: bit n is the one altered by n - 1 half steps.
constexpr auto used_by_players = [] {
  std::array<unsigned, 14> used{};
  for (const DegreeNames& names : {rising_names, falling_names})
    for (const Degree& degree : names)
      used.at(static_cast<std::size_t>(degree.number)) |= 1U << static_cast<unsigned>(degree.alter + 1);
  return used;
}();

bool players_use(const Degree& degree) {
  return degree.alter >= -1 && degree.alter <= 1 &&
         ((used_by_players.at(static_cast<std::size_t>(degree.number)) >> static_cast<unsigned>(degree.alter + 1)) &
          1U) != 0;
}

bool lists_sharp_ninth(const Chord& chord) {
  return std::ranges::find(chord.tensions, Degree{9, 1}) != chord.tensions.end();
}

/// Without a seventh the natural thirteenth is called the sixth.
Degree sixth_without_seventh(const Chord& chord, const Degree& degree) {
  const auto seventh = seventh_of(chord);
  const bool has_seventh = seventh && seventh->number == 7;
  return degree == Degree{13, 0} && !has_seventh ? Degree{6, 0} : degree;
}

}  // namespace

Degree degree_over(const Chord& chord, const Note& note, bool rising) {
  const int sounding = pitch_class(note.pitch.name);
  if (const auto tone = tone_with(chord, sounding)) return *tone;
  const Degree spelled = degree_of(note.pitch.name, chord.root);
  if (spelled == Degree{3, -1} && lists_sharp_ninth(chord)) return {9, 1};
  if (note.spelled && players_use(spelled)) return sixth_without_seventh(chord, spelled);
  const DegreeNames& names = rising ? rising_names : falling_names;
  return sixth_without_seventh(chord, names.at(above_root(chord, sounding)));
}

Degree tension_over(const Chord& chord, int sounding) {
  if (const auto tone = tone_with(chord, sounding)) return *tone;
  if (const auto tension = tension_with(chord, sounding)) return *tension;
  return sixth_without_seventh(chord, colour_names.at(above_root(chord, sounding)));
}

MemberDegrees::MemberDegrees(const Harmony& harmony) : alike_(first_alike(harmony)), degrees_(alike_.size()) {
  for (std::size_t i = 0; i < alike_.size(); ++i)
    for (int sounding = 0; alike_[i] == i && sounding < pitch_classes; ++sounding)
      degrees_[i][static_cast<std::size_t>(sounding)] = tension_over(harmony.chords[i].chord, sounding);
}

}  // namespace insideline
