// What each bar gives to a figure, so that bars can be drawn again: how many of its notes, arpeggios, connections or
// chords, and how many of them are what is asked for. A note belongs to the bar it is struck in, an arpeggio and a
// phrase to the bar of their first note, a connection and a chord to the bar in which the chord arrives.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/measures/block_bootstrap.hpp"
#include "analyzer/measures/rotation.hpp"
#include "analyzer/model/chord.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <vector>

namespace insideline {

/// One amount for each bar of the solo, a pickup included.
using BarSeries = std::vector<BarAmount>;

/// A solo and all that was found in it. Both must outlive this.
struct Material {
  Material(const Solo& its_solo, const Analysis& its_analysis);

  const Solo& solo;
  const Analysis& analysis;
  HeardLine line;
  ChangesRing ring;
  std::vector<ChordQuality> qualities;    ///< parallel to HeardLine::stretches
  std::vector<std::size_t> bar_of_chord;  ///< parallel to Harmony::chords, index into Solo::bars
  std::vector<bool> in_arpeggio;          ///< parallel to Solo::notes
  std::vector<bool> in_riff;              ///< parallel to Solo::notes

  [[nodiscard]] std::size_t bar_of_note(std::size_t note) const { return bar_index_at(solo, solo.notes[note].onset); }
};

using NoteTest = bool (*)(const Material&, const HeardNote&);
using ArpeggioTest = bool (*)(const Material&, const Arpeggio&);
using LegTest = bool (*)(const Leg&);
using ConnectionTest = bool (*)(const Connection&);
using ChordTest = bool (*)(const ChordOutline&);

inline void add_amount(BarAmount& amount, double part, double whole = 1.0) {
  amount.part += part;
  amount.whole += whole;
}
/// One more of the whole, and of the part if `is_part`.
inline void add_one(BarAmount& amount, bool is_part) { add_amount(amount, is_part ? 1.0 : 0.0); }

/// Of the notes that are `of`, those that are `is` too: by number, and by the quarter notes that they last. The tests
/// are known to the compiler, as there are forty of these, each over all notes.
template <NoteTest of, NoteTest is>
BarSeries share_of_notes(const Material& material) {
  BarSeries series(material.solo.bars.size());
  for (const HeardNote& note : material.line.notes)
    if (of(material, note)) add_one(series[note.bar], is(material, note));
  return series;
}

template <NoteTest of, NoteTest is>
BarSeries share_of_time(const Material& material) {
  BarSeries series(material.solo.bars.size());
  for (const HeardNote& note : material.line.notes)
    if (of(material, note)) add_amount(series[note.bar], is(material, note) ? note.duration : 0.0, note.duration);
  return series;
}

template <ArpeggioTest of, ArpeggioTest is>
BarSeries share_of_arpeggios(const Material& material) {
  BarSeries series(material.solo.bars.size());
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    if (of(material, arpeggio)) add_one(series[material.bar_of_note(arpeggio.notes.front())], is(material, arpeggio));
  return series;
}

/// A leg belongs to the bar that it begins in.
template <LegTest of, LegTest is>
BarSeries share_of_legs(const Material& material) {
  BarSeries series(material.solo.bars.size());
  for (const Arpeggio& arpeggio : material.analysis.arpeggios)
    for (const Leg& leg : arpeggio.legs)
      if (of(leg)) add_one(series[material.bar_of_note(arpeggio.notes[leg.first])], is(leg));
  return series;
}

template <ConnectionTest of, ConnectionTest is>
BarSeries share_of_connections(const Material& material) {
  BarSeries series(material.solo.bars.size());
  for (const Connection& connection : material.analysis.connections)
    if (of(connection)) add_one(series[material.bar_of_chord[connection.to_chord]], is(connection));
  return series;
}

/// Of the chords with a note.
template <ChordTest of, ChordTest is>
BarSeries share_of_chords(const Material& material) {
  BarSeries series(material.solo.bars.size());
  for (const ChordOutline& chord : material.analysis.outline.chords)
    if (chord.notes > 0 && of(chord)) add_one(series[material.bar_of_chord[chord.chord]], is(chord));
  return series;
}

/// Notes to a full bar, and the share of each bar's length that notes fill.
BarSeries notes_a_bar(const Material& material);
BarSeries time_filled(const Material& material);
BarSeries arpeggios_a_bar(const Material& material);
BarSeries notes_an_arpeggio(const Material& material);
BarSeries notes_a_phrase(const Material& material);
/// Of the phrases, those whose last note is a chord tone.
BarSeries phrases_that_end_on_a_chord_tone(const Material& material);
/// Quarter notes from the arrival of a chord to its first third or seventh, of the chords that get one.
BarSeries wait_for_a_guide_tone(const Material& material);
/// Chords that no other chord fits better, going by the notes alone; and the bits won a chord.
BarSeries chords_guessed(const Material& material);
BarSeries bits_a_chord(const Material& material);
/// Semitones at each change along the thread.
BarSeries thread_step(const Material& material);
/// The strict chord-tone share minus its mean over all turns of the changes. No amounts where there is no turn.
BarSeries above_chance(const Material& material);

}  // namespace insideline
