#include "analyzer/harmony/chord_kinds.hpp"

namespace insideline {

// Sources: R. Hutchinson, Music Theory for the 21st-Century Classroom, chapter 31; MusicXML 4.0, W3C, kind-value. Where
// usage differs: 11 without the third except over minor, 13 without the 11th.
std::span<const ChordKind> chord_kinds() {
  constexpr Degree third{3, 0};
  constexpr Degree minor_third{3, -1};
  constexpr Degree fifth{5, 0};
  constexpr Degree seventh{7, 0};
  constexpr Degree minor_seventh{7, -1};
  static const std::vector<ChordKind> kinds = {
      {"", Building::thirds, {{1, 0}, third, fifth}},
      {"m", Building::thirds, {{1, 0}, minor_third, fifth}},
      {"7", Building::thirds, {{1, 0}, third, fifth, minor_seventh}},
      {"maj7", Building::thirds, {{1, 0}, third, fifth, seventh}},
      {"m7", Building::thirds, {{1, 0}, minor_third, fifth, minor_seventh}},
      {"dim", Building::thirds, {{1, 0}, minor_third, {5, -1}}},
      {"aug", Building::thirds, {{1, 0}, third, {5, 1}}},
      {"m7b5", Building::thirds, {{1, 0}, minor_third, {5, -1}, minor_seventh}},
      {"dim7", Building::thirds, {{1, 0}, minor_third, {5, -1}, {7, -2}}},
      {"mMaj7", Building::thirds, {{1, 0}, minor_third, fifth, seventh}},
      {"7#5", Building::thirds, {{1, 0}, third, {5, 1}, minor_seventh}},
      {"maj7#5", Building::thirds, {{1, 0}, third, {5, 1}, seventh}},
      {"7b5", Building::thirds, {{1, 0}, third, {5, -1}, minor_seventh}},
      {"dimMaj7", Building::thirds, {{1, 0}, minor_third, {5, -1}, seventh}},
      {"9", Building::thirds, {{1, 0}, third, fifth, minor_seventh, {9, 0}}},
      {"maj9", Building::thirds, {{1, 0}, third, fifth, seventh, {9, 0}}},
      {"m9", Building::thirds, {{1, 0}, minor_third, fifth, minor_seventh, {9, 0}}},
      {"mMaj9", Building::thirds, {{1, 0}, minor_third, fifth, seventh, {9, 0}}},
      {"m9b5", Building::thirds, {{1, 0}, minor_third, {5, -1}, minor_seventh, {9, 0}}},
      {"m11", Building::thirds, {{1, 0}, minor_third, fifth, minor_seventh, {9, 0}, {11, 0}}},
      {"m11b5", Building::thirds, {{1, 0}, minor_third, {5, -1}, minor_seventh, {9, 0}, {11, 0}}},
      {"13", Building::thirds, {{1, 0}, third, fifth, minor_seventh, {9, 0}, {13, 0}}},
      {"maj13", Building::thirds, {{1, 0}, third, fifth, seventh, {9, 0}, {13, 0}}},
      {"m13", Building::thirds, {{1, 0}, minor_third, fifth, minor_seventh, {9, 0}, {13, 0}}},
      {"6", Building::other, {{1, 0}, third, fifth, {6, 0}}},
      {"m6", Building::other, {{1, 0}, minor_third, fifth, {6, 0}}},
      {"69", Building::other, {{1, 0}, third, fifth, {6, 0}, {9, 0}}},
      {"m69", Building::other, {{1, 0}, minor_third, fifth, {6, 0}, {9, 0}}},
      {"sus4", Building::other, {{1, 0}, {4, 0}, fifth}},
      {"sus2", Building::other, {{1, 0}, {2, 0}, fifth}},
      {"7sus4", Building::other, {{1, 0}, {4, 0}, fifth, minor_seventh}},
      {"maj7sus4", Building::other, {{1, 0}, {4, 0}, fifth, seventh}},
      {"9sus4", Building::other, {{1, 0}, {4, 0}, fifth, minor_seventh, {9, 0}}},
      {"13sus4", Building::other, {{1, 0}, {4, 0}, fifth, minor_seventh, {9, 0}, {13, 0}}},
      {"11", Building::other, {{1, 0}, fifth, minor_seventh, {9, 0}, {11, 0}}},
      {"maj11", Building::other, {{1, 0}, fifth, seventh, {9, 0}, {11, 0}}},
      {"5", Building::other, {{1, 0}, fifth}},
  };
  return kinds;
}

}  // namespace insideline
