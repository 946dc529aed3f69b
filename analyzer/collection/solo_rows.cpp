#include "analyzer/collection/solo_rows.hpp"

#include "analyzer/measures/figure_table.hpp"

#include <algorithm>
#include <cassert>

namespace insideline {
namespace {

std::string joined(const std::vector<Degree>& degrees) {
  std::string text;
  for (const Degree& degree : degrees) text += (text.empty() ? "" : "-") + to_string(degree);
  return text;
}

ChordEntry entry_of(const SoundingChord& chord) {
  return {.symbol = chord.chord.symbol,
          .quality = to_string(quality(chord.chord)),
          .onset = to_double(chord.onset),
          .duration = to_double(chord.duration),
          .bar = chord.bar,
          .chorus = chord.chorus};
}

NoteEntry entry_of(const Note& note, const NoteLabel& label, const Bar& bar) {
  return {.bar = bar.number,
          .onset = to_double(note.onset),
          .duration = to_double(note.duration),
          .midi = midi_number(note.pitch),
          .name = to_string(note.pitch),
          .chord = label.chord,
          .governor = label.governor,
          .degree = label.degree ? to_string(*label.degree) : "",
          .role = label.role,
          .figure = label.figure,
          .placement = label.placement,
          .confidence = label.confidence};
}

int legs_that_go(const Arpeggio& arpeggio, Direction direction) {
  return static_cast<int>(std::ranges::count(arpeggio.legs, direction, &Leg::direction));
}

ArpeggioEntry entry_of(const Arpeggio& arpeggio) {
  return {.first_note = arpeggio.notes.front(),
          .chord = arpeggio.governor,
          .shape = joined(arpeggio.degrees),
          .direction = arpeggio.direction,
          .inversion = arpeggio.inversion,
          .notes = static_cast<int>(arpeggio.notes.size()),
          .ornaments = static_cast<int>(arpeggio.ornaments.size()),
          .complete = arpeggio.complete,
          .straight_descent = arpeggio.straight_descent,
          .legs_up = legs_that_go(arpeggio, Direction::ascending),
          .legs_down = legs_that_go(arpeggio, Direction::descending)};
}

ConnectionEntry entry_of(const Connection& connection) {
  return {.from_chord = connection.from_chord,
          .to_chord = connection.to_chord,
          .from_note = connection.from_note,
          .to_note = connection.to_note,
          .semitones = connection.semitones,
          .kind = connection.kind,
          .guide_tone = connection.guide_tone,
          .took_nearest = connection.took_nearest};
}

CellEntry entry_of(const Cell& cell) {
  return {.degrees = joined(cell.degrees),
          .direction = cell.direction,
          .quality = to_string(cell.quality),
          .count = cell.count};
}

}  // namespace

std::vector<FigureEntry> figure_entries(const Solo& solo, const Analysis& analysis) {
  const Material material(solo, analysis);
  std::vector<FigureEntry> entries;
  entries.reserve(figure_rows().size());
  for (const FigureRow& row : figure_rows()) {
    const BarSeries bars = row.by_bar(material);
    FigureEntry entry{.key = row.key, .part = 0.0, .whole = 0.0, .value = quotient(bars)};
    for (const BarAmount& bar : bars) {
      entry.part += bar.part;
      entry.whole += bar.whole;
    }
    entries.push_back(std::move(entry));
  }
  return entries;
}

SoloRows solo_rows(const Solo& solo, const Analysis& analysis) {
  assert(analysis.detail >= Detail::figures && "all that is kept was asked for");
  SoloRows rows;
  rows.title = solo.title;
  rows.part = solo.part;
  rows.bars = static_cast<int>(solo.bars.size());
  rows.choruses = analysis.harmony.choruses;
  rows.chords.reserve(analysis.harmony.chords.size());
  for (const SoundingChord& chord : analysis.harmony.chords) rows.chords.push_back(entry_of(chord));
  rows.notes.reserve(solo.notes.size());
  std::size_t bar = 0;
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= solo.notes[i].onset) ++bar;
    rows.notes.push_back(entry_of(solo.notes[i], analysis.labels[i], solo.bars[bar]));
  }
  for (const Arpeggio& arpeggio : analysis.arpeggios) rows.arpeggios.push_back(entry_of(arpeggio));
  for (const Connection& connection : analysis.connections) rows.connections.push_back(entry_of(connection));
  for (const Cell& cell : analysis.cells) rows.cells.push_back(entry_of(cell));
  rows.figures = figure_entries(solo, analysis);
  return rows;
}

}  // namespace insideline
