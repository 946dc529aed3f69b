#include "analyzer/outside_events.hpp"

#include "analyzer/labels/side_slips.hpp"

namespace insideline {
namespace {
/// The end of the run from `first` on.
std::size_t end_of_slip(const HeardLine& line, std::span<const NoteLabel> labels, std::size_t first) {
  const auto belongs = [&](const HeardNote& note) {
    return note.sounding == line.notes[first].sounding &&
           labels[note.note].slips == labels[line.notes[first].note].slips;
  };
  std::size_t end = first + 1;
  while (end < line.notes.size() && belongs(line.notes[end])) ++end;
  return end;
}

}  // namespace

std::vector<OutsideEvent> find_outside_events(const HeardLine& line, const Harmony& harmony,
                                              std::span<const NoteLabel> labels) {
  std::vector<OutsideEvent> events;
  std::size_t end = 0;
  for (std::size_t i = 0; i < line.notes.size(); i = end) {
    end = i + 1;
    const int semitones = labels[line.notes[i].note].slips;
    if (semitones == 0 || !line.notes[i].sounding) continue;
    end = end_of_slip(line, labels, i);
    std::size_t outside = 0;
    for (std::size_t k = i; k < end; ++k)
      if (labels[line.notes[k].note].role == Role::outside) ++outside;
    if (outside * 2 < end - i) continue;
    const std::size_t chord = line.stretches[*line.notes[i].sounding].first;
    events.push_back({.first = line.notes[i].note,
                      .last = line.notes[end - 1].note,
                      .chord = chord,
                      .semitones = semitones,
                      .plays = chord_aside(harmony.chords[chord].chord, semitones).symbol});
  }
  return events;
}

}  // namespace insideline
