#include "analyzer/labels/side_slips.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdlib>
#include <string_view>

namespace insideline {
namespace {

constexpr std::size_t fewest = 3;
constexpr std::size_t fewest_farther_away = 4;
constexpr int fewest_names = 3;

constexpr std::array<int, 11> ways = {1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6};  // the shortest first

struct Distance {
  int steps;
  std::string_view name;
};

constexpr std::array<Distance, 7> distances = {{{0, "on"},
                                                {1, "a half step"},
                                                {1, "a whole step"},
                                                {2, "a minor third"},
                                                {2, "a major third"},
                                                {3, "a fourth"},
                                                {4, "a tritone"}}};

const Distance& distance(int semitones) { return distances.at(static_cast<std::size_t>(std::abs(semitones))); }

/// Neither a tone of its chord nor a colour that the chord takes; a blue note is none in such company.
bool is_strange(const NoteContext& here) {
  const bool no_colour = !here.colour || *here.colour >= Colour::blue;
  return here.chord && !here.is_tone && no_colour;
}

/// A run begins with three notes over one chord: most notes are told apart by that before any chord is tried.
bool may_begin(const Chain& chain, std::size_t first) {
  const NoteContext& here = chain[first];
  if (!here.chord || here.is_tone) return false;
  const NoteContext& third = chain[first + fewest - 1];
  return third.chord && third.tones == here.tones && chain[first + 1].tones == here.tones;
}

/// What a chord beside the one that sounds must have: the three notes from `first` on.
PitchClassSet first_names(const Chain& chain, std::size_t first) {
  unsigned names = 0;
  for (std::size_t i = first; i < first + fewest; ++i) names |= 1U << static_cast<unsigned>(chain[i].pitch_class);
  return static_cast<PitchClassSet>(names);
}

/// The chord `way` semitones away.
PitchClassSet tones_aside(PitchClassSet tones, int way) {
  return moved_up(tones, (way + pitch_classes) % pitch_classes);
}

/// The notes from `first` on that play the chord `way` semitones away: how many.
std::size_t length_of_run(const Chain& chain, std::size_t first, int way) {
  const bool half_step = std::abs(way) == 1;
  const PitchClassSet tones = chain[first].tones;
  const PitchClassSet there = tones_aside(tones, way);
  std::size_t end = first;
  std::size_t last_strange = first;
  std::size_t strange = 0;
  unsigned names = 0;
  for (; end < chain.size(); ++end) {
    const NoteContext& here = chain[end];
    if (!here.chord || here.tones != tones || !contains(there, here.pitch_class)) break;
    if (half_step && here.is_tone) break;
    names |= 1U << static_cast<unsigned>(here.pitch_class);
    if (!is_strange(here)) continue;
    ++strange;
    last_strange = end;
  }
  if (!half_step) end = last_strange + 1;
  const std::size_t length = end - first;
  if (std::popcount(names) < fewest_names || length < (half_step ? fewest : fewest_farther_away)) return 0;
  return half_step || (strange >= fewest && strange * 2 > length) ? length : 0;
}

}  // namespace

void mark_side_slips(Chain& chain) {
  for (std::size_t i = 0; i + fewest <= chain.size(); ++i) {
    if (!may_begin(chain, i)) continue;
    const bool strange = is_strange(chain[i]);
    const PitchClassSet names = first_names(chain, i);
    for (const int way : ways) {
      if (std::abs(way) > 1 && !strange) break;
      if ((names & ~tones_aside(chain[i].tones, way)) != 0) continue;
      const std::size_t length = length_of_run(chain, i, way);
      if (length == 0) continue;
      for (std::size_t k = i; k < i + length; ++k) chain[k].slips = way;
      i += length - 1;
      break;
    }
  }
}

Chord chord_aside(const Chord& chord, int semitones) {
  const int steps = distance(semitones).steps;
  return transposed(chord, Interval{semitones < 0 ? -steps : steps, semitones});
}

std::string way_aside(int semitones) {
  return std::string(distance(semitones).name) + (semitones < 0 ? " below" : " above");
}

}  // namespace insideline
