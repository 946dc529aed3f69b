#include "analyzer/measures/bar_amounts.hpp"

#include "analyzer/measures/summary.hpp"
#include "analyzer/patterns/riffs.hpp"

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <map>
#include <utility>

namespace insideline {
namespace {

BarSeries empty_series(const Material& material) { return BarSeries(material.solo.bars.size()); }

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
      in_riff(riff_notes(its_analysis.patterns.riffs, its_solo.notes.size())) {
  assert(its_analysis.detail >= Detail::figures && "all that is compared was asked for");
  const std::vector<SoundingChord>& chords = its_analysis.harmony.chords;
  for (const Stretch& stretch : line.stretches) qualities.push_back(quality(chords[stretch.first].chord));
  for (const SoundingChord& chord : chords) bar_of_chord.push_back(bar_index_at(its_solo, chord.onset));
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
    series[material.bar_of_note(arpeggio.notes.front())].part += 1;
  return series;
}

BarSeries notes_an_arpeggio(const Material& material) {
  BarSeries series = empty_series(material);
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    add_amount(series[material.bar_of_note(arpeggio.notes.front())], static_cast<double>(arpeggio.notes.size()));
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
    if (ends && counts(heard[i])) add_one(series[heard[first].bar], heard[i].role == Role::chord_tone);
  }
  return series;
}

BarSeries wait_for_a_guide_tone(const Material& material) {
  BarSeries series = empty_series(material);
  for (const ChordOutline& chord : material.analysis.outline.chords)
    if (chord.first_guide_tone)
      add_amount(series[material.bar_of_chord[chord.chord]], to_double(*chord.first_guide_tone));
  return series;
}

BarSeries chords_guessed(const Material& material) {
  BarSeries series = empty_series(material);
  for (const HeardChord& chord : material.analysis.heard.chords)
    add_one(series[material.bar_of_chord[chord.chord]], chord.rank == 1);
  return series;
}

BarSeries bits_a_chord(const Material& material) {
  BarSeries series = empty_series(material);
  for (const HeardChord& chord : material.analysis.heard.chords)
    add_amount(series[material.bar_of_chord[chord.chord]], chord.bits);
  return series;
}

BarSeries thread_step(const Material& material) {
  BarSeries series = empty_series(material);
  const auto midi = [&](std::size_t note) { return midi_number(material.solo.notes[note].pitch); };
  for (const Thread& thread : material.analysis.threads)
    for (std::size_t i = 1; i < thread.notes.size(); ++i)
      add_amount(series[material.bar_of_note(thread.notes[i])],
                 std::abs(midi(thread.notes[i]) - midi(thread.notes[i - 1])));
  return series;
}

BarSeries above_chance(const Material& material) {
  BarSeries series = empty_series(material);
  const ChangesRing& ring = material.ring;
  if (ring.period < 2) return series;
  std::map<std::pair<Beats, int>, BarAmount> in_all;  // a place in the bar and a pitch class over one period
  for (const HeardNote& note : material.line.notes) {
    const auto here = bar_under(ring, note.bar, 0);
    if (!note.sounding || !here) continue;
    const Beats offset = material.solo.notes[note.note].onset - material.solo.bars[note.bar].onset;
    const auto [all, is_new] = in_all.try_emplace({offset, note.pitch_class});
    for (std::size_t bar = 0; is_new && bar < ring.period; ++bar)
      if (const auto fit = fits(ring.bars[bar], offset, note.pitch_class)) add_one(all->second, *fit);
    BarAmount turned = all->second;  // without the bar that is under the note as it was played
    if (const auto fit = fits(ring.bars[*here], offset, note.pitch_class)) add_amount(turned, *fit ? -1.0 : 0.0, -1.0);
    if (turned.whole <= 0.0) continue;
    const bool fits_here = contains(material.line.stretches[*note.sounding].tones, note.pitch_class);
    add_amount(series[note.bar], (fits_here ? 1.0 : 0.0) - turned.part / turned.whole);
  }
  return series;
}

}  // namespace insideline
