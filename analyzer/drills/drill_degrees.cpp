#include "analyzer/drills/drill_degrees.hpp"

#include "analyzer/drills/usual_scales.hpp"
#include "analyzer/labels/degree_spelling.hpp"

#include <algorithm>
#include <span>

namespace insideline {
namespace {

const Chord* chord_under(const Drill& drill, std::size_t note) {
  const auto index = chord_index_at(drill.harmony, drill.solo.notes[note].onset);
  return index ? &drill.harmony.chords[*index].chord : nullptr;
}

DrillDegree degree_under(const Drill& drill, std::size_t note, const Chord& chord) {
  const auto& notes = drill.solo.notes;
  const int sounding = pitch_class(notes[note].pitch.name);
  if (const auto tone = tone_with(chord, sounding)) return {*tone, true};
  const bool rising = note + 1 < notes.size() && midi_number(notes[note + 1].pitch) > midi_number(notes[note].pitch);
  return {degree_over(chord, notes[note], rising), false};
}

/// The tones of the cell over the chord, as long as `notes` sound as they do; else none.
std::vector<Degree> cell_sounded(const DrillCell& cell, const Chord& chord, std::span<const Note> notes) {
  std::vector<Degree> degrees;
  for (const CellTone& tone : cell.tones) {
    if (degrees.size() == notes.size()) break;
    const auto played = cell_tone(chord, tone);
    const Note& note = notes[degrees.size()];
    if (!played || pitch_class_at(chord, *played) != pitch_class(note.pitch.name)) return {};
    degrees.push_back(*played);
  }
  return degrees;
}

void number_by_cells(const Drill& drill, const DrillSettings& settings,
                     std::vector<std::optional<DrillDegree>>& degrees) {
  const auto& begins = drill.figure_begins;
  for (std::size_t figure = 0; figure < begins.size(); ++figure) {
    const std::size_t begin = begins[figure];
    const std::size_t end = figure + 1 < begins.size() ? begins[figure + 1] : drill.solo.notes.size();
    const Chord* chord = chord_under(drill, begin);
    if (chord == nullptr) continue;
    for (const DrillCell& cell : settings.cells) {
      const std::vector<Degree> said =
          cell_sounded(cell, *chord, std::span(drill.solo.notes).subspan(begin, end - begin));
      for (std::size_t i = 0; i < said.size(); ++i) degrees[begin + i] = DrillDegree{said[i], true};
      if (!said.empty()) break;
    }
  }
}

}  // namespace

std::vector<std::optional<DrillDegree>> degrees_of(const Drill& drill, const DrillSettings& settings) {
  std::vector<std::optional<DrillDegree>> degrees(drill.solo.notes.size());
  for (std::size_t note = 0; note < degrees.size(); ++note)
    if (const Chord* chord = chord_under(drill, note)) degrees[note] = degree_under(drill, note, *chord);
  if (settings.kind == DrillKind::cells) number_by_cells(drill, settings, degrees);
  return degrees;
}

}  // namespace insideline
