#include "analyzer/measures/bar_amounts.hpp"

#include "analyzer/measures/summary.hpp"
#include "analyzer/patterns/riffs.hpp"

#include <algorithm>
#include <cstdlib>

namespace insideline {
namespace {

BarSeries empty_series(const Material& material) { return BarSeries(material.solo.bars.size()); }

void add(BarAmount& amount, double part, double whole = 1.0) {
  amount.part += part;
  amount.whole += whole;
}

double as_part(bool counted) { return counted ? 1.0 : 0.0; }

std::size_t bar_of_note(const Material& material, std::size_t note) {
  return bar_index_at(material.solo, material.solo.notes[note].onset);
}

std::size_t bar_of_chord(const Material& material, std::size_t chord) {
  return bar_index_at(material.solo, material.analysis.harmony.chords[chord].onset);
}

/// 1 for a full bar, less for a pickup.
double full_bars(const Bar& bar) { return to_double(bar.length / bar_length(bar.meter)); }

/// Whether `pitch_class` is a tone of what sounds `offset` into a bar of the ring; none under N.C.
std::optional<bool> fits(const std::vector<BarSpan>& bar, const Beats& offset, int pitch_class) {
  const BarSpan* here = nullptr;
  for (const BarSpan& span : bar)
    if (span.offset <= offset) here = &span;
  if (here == nullptr || !here->tones) return std::nullopt;
  return contains(*here->tones, pitch_class);
}

}  // namespace

Material::Material(const Solo& its_solo, const Analysis& its_analysis)
    : solo(its_solo),
      analysis(its_analysis),
      line(hear(its_solo, its_analysis.harmony, its_analysis.labels, its_analysis.phrases)),
      ring(ring_of(its_solo, its_analysis.harmony, line)),
      in_arpeggio(arpeggio_notes(its_analysis.arpeggios, its_solo.notes.size())),
      in_riff(riff_notes(its_analysis.patterns.riffs, its_solo.notes.size())) {}

BarSeries share_of_notes(const Material& material, NoteTest of, NoteTest is) {
  BarSeries series = empty_series(material);
  for (const HeardNote& note : material.line.notes)
    if (of(material, note)) add(series[note.bar], as_part(is(material, note)));
  return series;
}

BarSeries share_of_time(const Material& material, NoteTest of, NoteTest is) {
  BarSeries series = empty_series(material);
  for (const HeardNote& note : material.line.notes)
    if (of(material, note)) add(series[note.bar], is(material, note) ? note.duration : 0.0, note.duration);
  return series;
}

BarSeries share_of_arpeggios(const Material& material, ArpeggioTest of, ArpeggioTest is) {
  BarSeries series = empty_series(material);
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    if (of(material, arpeggio))
      add(series[bar_of_note(material, arpeggio.notes.front())], as_part(is(material, arpeggio)));
  return series;
}

BarSeries share_of_legs(const Material& material, LegTest of, LegTest is) {
  BarSeries series = empty_series(material);
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    for (const Leg& leg : arpeggio.legs)
      if (of(leg)) add(series[bar_of_note(material, arpeggio.notes[leg.first])], as_part(is(leg)));
  return series;
}

BarSeries share_of_connections(const Material& material, ConnectionTest of, ConnectionTest is) {
  BarSeries series = empty_series(material);
  for (const Connection& connection : material.analysis.connections)
    if (of(connection)) add(series[bar_of_chord(material, connection.to_chord)], as_part(is(connection)));
  return series;
}

BarSeries share_of_chords(const Material& material, ChordTest of, ChordTest is) {
  BarSeries series = empty_series(material);
  for (const ChordOutline& chord : material.analysis.outline.chords)
    if (chord.notes > 0 && of(chord)) add(series[bar_of_chord(material, chord.chord)], as_part(is(chord)));
  return series;
}

BarSeries notes_a_bar(const Material& material) {
  BarSeries series = empty_series(material);
  for (std::size_t i = 0; i < series.size(); ++i) series[i].whole = full_bars(material.solo.bars[i]);
  for (const HeardNote& note : material.line.notes) series[note.bar].part += 1;
  return series;
}

BarSeries time_filled(const Material& material) {
  BarSeries series = empty_series(material);
  for (std::size_t i = 0; i < series.size(); ++i) series[i].whole = to_double(material.solo.bars[i].length);
  for (const HeardNote& note : material.line.notes) series[note.bar].part += note.duration;
  return series;
}

BarSeries arpeggios_a_bar(const Material& material) {
  BarSeries series = empty_series(material);
  for (std::size_t i = 0; i < series.size(); ++i) series[i].whole = full_bars(material.solo.bars[i]);
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    series[bar_of_note(material, arpeggio.notes.front())].part += 1;
  return series;
}

BarSeries notes_an_arpeggio(const Material& material) {
  BarSeries series = empty_series(material);
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    add(series[bar_of_note(material, arpeggio.notes.front())], static_cast<double>(arpeggio.notes.size()));
  return series;
}

BarSeries notes_a_phrase(const Material& material) {
  BarSeries series = empty_series(material);
  std::optional<std::size_t> phrase;
  std::size_t bar = 0;
  for (const HeardNote& note : material.line.notes) {
    if (phrase != note.phrase) {
      phrase = note.phrase;
      bar = note.bar;
      series[bar].whole += 1;
    }
    series[bar].part += 1;
  }
  return series;
}

BarSeries phrases_that_end_on_a_chord_tone(const Material& material) {
  BarSeries series = empty_series(material);
  const auto& heard = material.line.notes;
  std::size_t first = 0;
  for (std::size_t i = 0; i < heard.size(); ++i) {
    if (heard[i].phrase != heard[first].phrase) first = i;
    const bool ends = i + 1 == heard.size() || heard[i + 1].phrase != heard[i].phrase;
    if (ends && counts(heard[i])) add(series[heard[first].bar], as_part(heard[i].role == Role::chord_tone));
  }
  return series;
}

BarSeries wait_for_a_guide_tone(const Material& material) {
  BarSeries series = empty_series(material);
  for (const ChordOutline& chord : material.analysis.outline.chords)
    if (chord.first_guide_tone) add(series[bar_of_chord(material, chord.chord)], to_double(*chord.first_guide_tone));
  return series;
}

BarSeries chords_guessed(const Material& material) {
  BarSeries series = empty_series(material);
  for (const HeardChord& chord : material.analysis.heard.chords)
    add(series[bar_of_chord(material, chord.chord)], as_part(chord.rank == 1));
  return series;
}

BarSeries bits_a_chord(const Material& material) {
  BarSeries series = empty_series(material);
  for (const HeardChord& chord : material.analysis.heard.chords)
    add(series[bar_of_chord(material, chord.chord)], chord.bits);
  return series;
}

BarSeries thread_step(const Material& material) {
  BarSeries series = empty_series(material);
  const auto midi = [&](std::size_t note) { return midi_number(material.solo.notes[note].pitch); };
  for (const Thread& thread : material.analysis.threads)
    for (std::size_t i = 1; i < thread.notes.size(); ++i)
      add(series[bar_of_note(material, thread.notes[i])], std::abs(midi(thread.notes[i]) - midi(thread.notes[i - 1])));
  return series;
}

BarSeries above_chance(const Material& material) {
  BarSeries series = empty_series(material);
  if (material.ring.period < 2) return series;
  for (const HeardNote& note : material.line.notes) {
    if (!note.sounding) continue;
    const Beats offset = material.solo.notes[note.note].onset - material.solo.bars[note.bar].onset;
    BarAmount turned;
    for (std::size_t turn = 1; turn < material.ring.period; ++turn) {
      const auto bar = bar_under(material.ring, note.bar, turn);
      if (!bar) continue;
      if (const auto fit = fits(material.ring.bars[*bar], offset, note.pitch_class)) add(turned, as_part(*fit));
    }
    if (turned.whole <= 0.0) continue;
    const bool fits_here = contains(material.line.stretches[*note.sounding].tones, note.pitch_class);
    add(series[note.bar], as_part(fits_here) - turned.part / turned.whole);
  }
  return series;
}

}  // namespace insideline
