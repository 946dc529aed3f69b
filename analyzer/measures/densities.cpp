#include "analyzer/measures/densities.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace insideline {
namespace {

constexpr std::size_t qualities = static_cast<std::size_t>(ChordQuality::other) + 1;

void add(std::vector<DegreeCount>& degrees, const Degree& degree, const HeardNote& note) {
  auto found = std::ranges::find(degrees, degree, &DegreeCount::degree);
  if (found == degrees.end()) found = degrees.insert(found, DegreeCount{.degree = degree});
  ++found->count;
  if (note.on_beat) ++found->on_beat;
  found->duration += note.duration;
}

}  // namespace

Share chord_tone_share(const Density& density) { return {.count = density.chord_tones, .of = density.notes}; }

void add(Density& density, const HeardNote& note, const HeardLine& line) {
  ++density.notes;
  density.duration += note.duration;
  if (note.sounding) {
    ++density.strict.of;
    if (contains(line.stretches[*note.sounding].tones, note.pitch_class)) ++density.strict.count;
  }
  switch (note.role) {
    case Role::chord_tone:
      ++density.chord_tones;
      density.chord_tone_duration += note.duration;
      break;
    case Role::tension: ++density.tensions; break;
    case Role::non_chord_tone: ++density.non_chord_tones; break;
    case Role::outside: ++density.outside; break;
    case Role::no_chord: break;
  }
}

Densities measure_densities(const HeardLine& line) {
  Densities densities;
  for (const HeardNote& note : line.notes) {
    if (!counts(note)) continue;
    add(densities.all, note, line);
    add(note.on_beat ? densities.on_beat : densities.off_beat, note, line);
    if (note.on_strong_beat) add(densities.on_strong_beats, note, line);
    if (note.on_change) add(densities.on_chord_changes, note, line);
  }
  return densities;
}

void add_groups(Densities& densities, const HeardLine& line, const Harmony& harmony,
                std::span<const NoteLabel> labels) {
  std::array<Density, qualities> by_quality;
  densities.by_chorus.resize(static_cast<std::size_t>(std::max(harmony.choruses, 1)));
  densities.by_phrase.resize(line.notes.empty() ? 0 : line.notes.back().phrase + 1);
  std::vector<ChordQuality> quality_of;
  for (const Stretch& stretch : line.stretches) quality_of.push_back(quality(harmony.chords[stretch.first].chord));
  for (const HeardNote& note : line.notes) {
    if (!counts(note)) continue;
    const SoundingChord& governor = harmony.chords[*labels[note.note].governor];
    add(by_quality.at(static_cast<std::size_t>(quality_of[*note.stretch])), note, line);
    add(densities.by_chorus.at(static_cast<std::size_t>(governor.chorus - 1)), note, line);
    add(densities.by_phrase[note.phrase], note, line);
    if (labels[note.note].degree) add(densities.by_degree, *labels[note.note].degree, note);
  }
  std::ranges::sort(densities.by_degree, {}, &DegreeCount::degree);
  for (std::size_t q = 0; q < by_quality.size(); ++q)
    if (by_quality.at(q).notes > 0)
      densities.by_quality.push_back({.quality = static_cast<ChordQuality>(q), .density = by_quality.at(q)});
}

}  // namespace insideline
