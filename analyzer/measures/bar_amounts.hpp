// What each bar gives to a figure, so that bars can be drawn again: how many of its notes, arpeggios, connections or
// chords, and how many of them are what is asked for. A note belongs to the bar it is struck in, an arpeggio and a
// phrase to the bar of their first note, a connection and a chord to the bar in which the chord arrives.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/measures/block_bootstrap.hpp"
#include "analyzer/measures/rotation.hpp"

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
  std::vector<bool> in_arpeggio;  ///< parallel to Solo::notes
  std::vector<bool> in_riff;      ///< parallel to Solo::notes
};

using NoteTest = bool (*)(const Material&, const HeardNote&);
using ArpeggioTest = bool (*)(const Material&, const Arpeggio&);
using LegTest = bool (*)(const Leg&);
using ConnectionTest = bool (*)(const Connection&);
using ChordTest = bool (*)(const ChordOutline&);

/// Of the notes that are `of`, those that are `is` too: by number, and by the quarter notes that they last.
BarSeries share_of_notes(const Material& material, NoteTest of, NoteTest is);
BarSeries share_of_time(const Material& material, NoteTest of, NoteTest is);
BarSeries share_of_arpeggios(const Material& material, ArpeggioTest of, ArpeggioTest is);
/// A leg belongs to the bar that it begins in.
BarSeries share_of_legs(const Material& material, LegTest of, LegTest is);
BarSeries share_of_connections(const Material& material, ConnectionTest of, ConnectionTest is);
/// Of the chords with a note.
BarSeries share_of_chords(const Material& material, ChordTest of, ChordTest is);

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
