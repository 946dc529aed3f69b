#include "analyzer/measures/section_figures.hpp"

#include "analyzer/measures/densities.hpp"
#include "analyzer/measures/summary.hpp"

#include <algorithm>
#include <string>

namespace insideline {
namespace {

std::optional<std::size_t> section_at(std::span<const SoundingSection> sections, const Beats& place) {
  const auto after = std::ranges::upper_bound(sections, place, {}, &SoundingSection::onset);
  if (after == sections.begin()) return std::nullopt;
  const auto section = std::prev(after);
  if (place >= section->onset + section->duration) return std::nullopt;
  return static_cast<std::size_t>(std::distance(sections.begin(), section));
}

/// The row of a name, made where there is none.
std::size_t row_of(std::vector<SectionFigures>& rows, const std::string& name) {
  const auto found = std::ranges::find(rows, name, &SectionFigures::name);
  const auto row = static_cast<std::size_t>(std::distance(rows.begin(), found));
  if (found == rows.end()) rows.push_back({.name = name});
  return row;
}

}  // namespace

std::optional<std::size_t> section_of_note(const Solo& solo, const Harmony& harmony, const NoteLabel& label,
                                           std::size_t note) {
  Beats place = solo.notes[note].onset;
  if (label.placement == Placement::anticipation && label.governor)
    place = std::max(place, harmony.chords[*label.governor].onset);
  if (place < Beats{} && !harmony.sections.empty() && harmony.sections.front().onset == Beats{}) place = Beats{};
  return section_at(harmony.sections, place);
}

std::vector<SectionFigures> measure_sections(const HeardLine& line, const Solo& solo, const Analysis& analysis) {
  const Harmony& harmony = analysis.harmony;
  std::vector<SectionFigures> rows;
  std::vector<std::size_t> row_of_section;
  for (const SoundingSection& section : harmony.sections) {
    row_of_section.push_back(row_of(rows, section.name));
    SectionFigures& row = rows[row_of_section.back()];
    ++row.times;
    row.bars += section.last_bar - section.first_bar + 1;
  }
  const std::vector<bool> in_arpeggio = arpeggio_notes(analysis.arpeggios, solo.notes.size());
  for (const HeardNote& note : line.notes) {
    if (!counts(note)) continue;
    const auto section = section_of_note(solo, harmony, analysis.labels[note.note], note.note);
    if (!section) continue;
    SectionFigures& row = rows[row_of_section[*section]];
    add(row.density, note, line);
    ++row.arpeggio_share.of;
    if (in_arpeggio[note.note]) ++row.arpeggio_share.count;
  }
  for (const Connection& connection : analysis.connections) {
    const auto section = section_at(harmony.sections, harmony.chords[connection.to_chord].onset);
    if (!section || !connection.took_nearest) continue;
    Share& nearest = rows[row_of_section[*section]].nearest_taken_share;
    ++nearest.of;
    if (*connection.took_nearest) ++nearest.count;
  }
  return rows;
}

}  // namespace insideline
