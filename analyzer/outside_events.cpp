#include "analyzer/outside_events.hpp"

#include <algorithm>

namespace insideline {
namespace {

constexpr std::size_t fewest = 3;

bool plays_aside(const HeardLine& line, const HeardNote& note, int aside) {
  if (!note.sounding) return false;
  const PitchClassSet tones = line.stretches[*note.sounding].tones;
  const PitchClassSet there = moved_up(tones, (aside + pitch_classes) % pitch_classes);
  return !contains(tones, note.pitch_class) && contains(there, note.pitch_class);
}

/// The run from `first` on: how many notes.
std::size_t length_of_run(const HeardLine& line, std::size_t first, int aside) {
  std::size_t end = first;
  while (end < line.notes.size() && line.notes[end].sounding == line.notes[first].sounding &&
         plays_aside(line, line.notes[end], aside))
    ++end;
  return end - first;
}

}  // namespace

std::vector<OutsideEvent> find_outside_events(const HeardLine& line, const Harmony& harmony,
                                              std::span<const NoteLabel> labels) {
  std::vector<OutsideEvent> events;
  for (std::size_t i = 0; i < line.notes.size(); ++i) {
    const std::size_t above = length_of_run(line, i, 1);
    const std::size_t below = length_of_run(line, i, -1);
    const int aside = above >= below ? 1 : -1;
    const std::size_t length = std::max(above, below);
    if (length < fewest) continue;
    std::size_t outside = 0;
    for (std::size_t k = i; k < i + length; ++k)
      if (labels[line.notes[k].note].role == Role::outside) ++outside;
    if (outside * 2 >= length) {
      const std::size_t chord = line.stretches[*line.notes[i].sounding].first;
      events.push_back({.first = line.notes[i].note,
                        .last = line.notes[i + length - 1].note,
                        .chord = chord,
                        .semitones = aside,
                        .plays = transposed(harmony.chords[chord].chord, Interval{aside, aside}).symbol});
    }
    i += length - 1;
  }
  return events;
}

}  // namespace insideline
