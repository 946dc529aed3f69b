#include "analyzer/measures/phrase_figures.hpp"

#include "analyzer/measures/summary.hpp"

#include <algorithm>
#include <numeric>

namespace insideline {
namespace {

constexpr double level_within = 1.0;  // semitones

PhraseFigures figures_of(std::span<const HeardNote> notes, const Solo& solo, std::span<const NoteLabel> labels,
                         const std::vector<bool>& in_arpeggio) {
  PhraseFigures figures;
  if (notes.empty()) return figures;
  figures.first_bar = solo.bars[notes.front().bar].number;
  figures.last_bar = solo.bars[notes.back().bar].number;
  const auto [lowest, highest] = std::ranges::minmax_element(notes, {}, &HeardNote::midi);
  figures.lowest = solo.notes[lowest->note].pitch;
  figures.highest = solo.notes[highest->note].pitch;
  std::vector<int> midi;
  for (const HeardNote& note : notes) {
    midi.push_back(note.midi);
    if (!counts(note)) continue;
    ++figures.arpeggio_share.of;
    if (in_arpeggio[note.note]) ++figures.arpeggio_share.count;
  }
  figures.contour = contour_of(midi);
  figures.first_degree = labels[notes.front().note].degree;
  figures.last_degree = labels[notes.back().note].degree;
  return figures;
}

}  // namespace

Contour contour_of(std::span<const int> midi) {
  if (midi.size() < 2) return Contour::level;
  const double first = midi.front();
  const double last = midi.back();
  const auto inner = midi.subspan(1, midi.size() - 2);
  const double middle = inner.empty()
                            ? (first + last) / 2
                            : std::accumulate(inner.begin(), inner.end(), 0.0) / static_cast<double>(inner.size());
  if (middle > std::max(first, last) + level_within) return Contour::arch;
  if (middle < std::min(first, last) - level_within) return Contour::bowl;
  if (last > first + level_within) return Contour::rising;
  if (last < first - level_within) return Contour::falling;
  return Contour::level;
}

std::vector<PhraseFigures> measure_phrases(const HeardLine& line, const Solo& solo, std::span<const NoteLabel> labels,
                                           std::span<const Phrase> phrases, std::span<const Arpeggio> arpeggios,
                                           const Densities& densities) {
  const std::vector<bool> in_arpeggio = arpeggio_notes(arpeggios, solo.notes.size());
  std::vector<PhraseFigures> rows;
  std::size_t first = 0;
  for (std::size_t phrase = 0; phrase < phrases.size(); ++phrase) {
    std::size_t end = first;
    while (end < line.notes.size() && line.notes[end].phrase == phrase) ++end;
    rows.push_back(figures_of(std::span(line.notes).subspan(first, end - first), solo, labels, in_arpeggio));
    if (phrase < densities.by_phrase.size()) rows.back().density = densities.by_phrase[phrase];
    first = end;
  }
  return rows;
}

}  // namespace insideline
