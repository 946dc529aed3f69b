#include "analyzer/measures/figure_table.hpp"

#include "analyzer/model/chord.hpp"
#include "analyzer/placement_when_struck.hpp"

#include <algorithm>

namespace insideline {
namespace {

const NoteLabel& label_of(const Material& material, const HeardNote& note) {
  return material.analysis.labels[note.note];
}

bool any(const Material&, const HeardNote& note) { return counts(note); }
bool has_chord(const Material&, const HeardNote& note) { return counts(note) && note.sounding.has_value(); }
bool fits_strictly(const Material& material, const HeardNote& note) {
  return contains(material.line.stretches[*note.sounding].tones, note.pitch_class);
}
bool is_on_beat(const Material&, const HeardNote& note) { return counts(note) && note.on_beat; }
bool is_off_beat(const Material&, const HeardNote& note) { return counts(note) && !note.on_beat; }
bool is_on_strong_beat(const Material&, const HeardNote& note) { return counts(note) && note.on_strong_beat; }
bool is_on_change(const Material&, const HeardNote& note) { return counts(note) && note.on_change; }
bool is_in_riff(const Material& material, const HeardNote& note) { return material.in_riff[note.note]; }
bool is_in_arpeggio(const Material& material, const HeardNote& note) { return material.in_arpeggio[note.note]; }

template <Role role>
bool is_role(const Material&, const HeardNote& note) {
  return note.role == role;
}
constexpr NoteTest is_chord_tone = is_role<Role::chord_tone>;

template <Figure... figures>
bool is_figure(const Material& material, const HeardNote& note) {
  return ((label_of(material, note).figure == figures) || ...);
}

template <Placement... placements>
bool is_placed(const Material& material, const HeardNote& note) {
  return ((label_of(material, note).placement == placements) || ...);
}

bool is_early(const Material& material, const HeardNote& note) {
  return placement_when_struck(label_of(material, note)) == Placement::anticipation;
}

/// A ninth counts as a second, and so on.
template <int number>
bool is_degree(const Material& material, const HeardNote& note) {
  const auto& degree = label_of(material, note).degree;
  constexpr int octave = 7;
  return degree && (degree->number - 1) % octave + 1 == number;
}

template <ChordQuality wanted>
bool is_over(const Material& material, const HeardNote& note) {
  if (!counts(note)) return false;
  return material.qualities[*note.stretch] == wanted;
}

bool any_arpeggio(const Material&, const Arpeggio&) { return true; }
bool any_leg(const Leg&) { return true; }
template <Direction direction>
bool goes(const Leg& leg) {
  return leg.direction == direction;
}
bool is_complete(const Material&, const Arpeggio& arpeggio) { return arpeggio.complete; }
bool is_ornamented(const Material&, const Arpeggio& arpeggio) { return !arpeggio.ornaments.empty(); }
bool is_extended(const Material&, const Arpeggio& arpeggio) {
  constexpr int seventh = 7;
  return std::ranges::any_of(arpeggio.degrees, [](const Degree& degree) { return degree.number > seventh; });
}

bool any_change(const Connection&) { return true; }
bool is_connected(const Connection& connection) { return connection.took_nearest.has_value(); }
bool takes_nearest(const Connection& connection) { return connection.took_nearest.value_or(false); }
template <ConnectionKind kind>
bool is_kind(const Connection& connection) {
  return connection.kind == kind;
}

bool has_third(const ChordOutline& chord) { return chord.has_third; }
bool has_seventh(const ChordOutline& chord) { return chord.has_seventh; }
bool has_both(const ChordOutline& chord) { return chord.has_third && chord.has_seventh; }
bool gets_third(const ChordOutline& chord) { return chord.third.has_value(); }
bool gets_seventh(const ChordOutline& chord) { return chord.seventh.has_value(); }
bool gets_both(const ChordOutline& chord) { return gets_third(chord) && gets_seventh(chord); }

// key, name, more, less, meaning, group, rank, unit, amounts of each bar
constexpr FigureRow rows[] = {
    {"chord_tones", "chord tones", "plays clearly more chord tones", "plays clearly fewer chord tones",
     "Notes that are tones of the chord they are heard against, of all notes.", FigureGroup::chord_tones,
     FigureRank::main, FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_chord_tone>(m); }},
    {"chord_tones_by_time", "chord tones by time", "stays on chord tones for clearly more of the time",
     "stays on chord tones for clearly less of the time", "The same, each note counted for as long as it lasts.",
     FigureGroup::chord_tones, FigureRank::detail, FigureUnit::time,
     [](const Material& m) { return share_of_time<any, is_chord_tone>(m); }},
    {"chord_tones_strict", "chord tones, strictly", "plays clearly more notes of the chord of the moment",
     "plays clearly fewer notes of the chord of the moment",
     "Notes that are tones of the chord sounding at that moment, early and late ones not forgiven.",
     FigureGroup::chord_tones, FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<has_chord, fits_strictly>(m); }},
    {"chord_tones_strict_by_time", "strictly, by time",
     "stays on tones of the chord of the moment for clearly more of the time",
     "stays on tones of the chord of the moment for clearly less of the time",
     "The strict count, each note counted for as long as it lasts.", FigureGroup::chord_tones, FigureRank::detail,
     FigureUnit::time, [](const Material& m) { return share_of_time<has_chord, fits_strictly>(m); }},
    {"chord_tones_on_beat", "chord tones on the beat", "plays clearly more chord tones on the beat",
     "plays clearly fewer chord tones on the beat", "Chord tones, of the notes struck on a beat.",
     FigureGroup::chord_tones, FigureRank::main, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_on_beat, is_chord_tone>(m); }},
    {"chord_tones_off_beat", "chord tones off the beat", "plays clearly more chord tones off the beat",
     "plays clearly fewer chord tones off the beat", "Chord tones, of the notes struck between the beats.",
     FigureGroup::chord_tones, FigureRank::main, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_off_beat, is_chord_tone>(m); }},
    {"chord_tones_on_strong_beats", "chord tones on 1 and 3", "plays clearly more chord tones on the strong beats",
     "plays clearly fewer chord tones on the strong beats",
     "Chord tones, of the notes on beats 1 and 3 of a bar of four, or on the first of three.", FigureGroup::chord_tones,
     FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_on_strong_beat, is_chord_tone>(m); }},
    {"chord_tones_on_changes", "chord tones as chords arrive",
     "meets an arriving chord clearly more often with one of its tones",
     "meets an arriving chord clearly less often with one of its tones",
     "Chord tones, of the notes struck at the moment the chord changes.", FigureGroup::chord_tones, FigureRank::main,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<is_on_change, is_chord_tone>(m); }},
    {"above_chance", "chord tones above chance", "stands clearly further above chance with its chord tones",
     "stands clearly less far above chance with its chord tones",
     "How far the strict count stands above what the same line gets over the same changes shifted by whole bars.",
     FigureGroup::chord_tones, FigureRank::main, FigureUnit::points, [](const Material& m) { return above_chance(m); }},
    {"chord_tones_on_major", "chord tones on major", "plays clearly more chord tones on major chords",
     "plays clearly fewer chord tones on major chords", "Chord tones, of the notes heard against major chords.",
     FigureGroup::chord_tones, FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_over<ChordQuality::major>, is_chord_tone>(m); }},
    {"chord_tones_on_minor", "chord tones on minor", "plays clearly more chord tones on minor chords",
     "plays clearly fewer chord tones on minor chords", "Chord tones, of the notes heard against minor chords.",
     FigureGroup::chord_tones, FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_over<ChordQuality::minor>, is_chord_tone>(m); }},
    {"chord_tones_on_dominant", "chord tones on dominants", "plays clearly more chord tones on dominants",
     "plays clearly fewer chord tones on dominant chords", "Chord tones, of the notes heard against dominant chords.",
     FigureGroup::chord_tones, FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_over<ChordQuality::dominant>, is_chord_tone>(m); }},
    {"chord_tones_on_half_diminished", "chord tones on half-diminished",
     "plays clearly more chord tones on half-diminished chords",
     "plays clearly fewer chord tones on half-diminished chords",
     "Chord tones, of the notes heard against half-diminished chords.", FigureGroup::chord_tones, FigureRank::detail,
     FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_over<ChordQuality::half_diminished>, is_chord_tone>(m); }},
    {"chord_tones_on_diminished", "chord tones on diminished", "plays clearly more chord tones on diminished chords",
     "plays clearly fewer chord tones on diminished chords",
     "Chord tones, of the notes heard against diminished chords.", FigureGroup::chord_tones, FigureRank::detail,
     FigureUnit::notes,
     [](const Material& m) { return share_of_notes<is_over<ChordQuality::diminished>, is_chord_tone>(m); }},
    {"roots", "roots", "plays clearly more roots", "plays clearly fewer roots",
     "Roots of the chord they are heard against, of all notes.", FigureGroup::degrees, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_degree<1>>(m); }},
    {"thirds", "thirds", "plays clearly more thirds", "plays clearly fewer thirds",
     "Thirds of the chord they are heard against, of all notes.", FigureGroup::degrees, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_degree<3>>(m); }},
    {"fifths", "fifths", "plays clearly more fifths", "plays clearly fewer fifths",
     "Fifths of the chord they are heard against, of all notes.", FigureGroup::degrees, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_degree<5>>(m); }},
    {"sevenths", "sevenths", "plays clearly more sevenths", "plays clearly fewer sevenths",
     "Sevenths of the chord they are heard against, of all notes.", FigureGroup::degrees, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_degree<7>>(m); }},
    {"ninths", "ninths", "plays clearly more ninths", "plays clearly fewer ninths",
     "Ninths (seconds) of the chord, flat, natural and sharp, whatever they do there; of all notes.",
     FigureGroup::degrees, FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_degree<2>>(m); }},
    {"elevenths", "elevenths", "plays clearly more elevenths", "plays clearly fewer elevenths",
     "Elevenths (fourths) of the chord, natural and sharp, whatever they do there; of all notes.", FigureGroup::degrees,
     FigureRank::detail, FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_degree<4>>(m); }},
    {"thirteenths", "thirteenths", "plays clearly more thirteenths", "plays clearly fewer thirteenths",
     "Thirteenths (sixths) of the chord, flat and natural, whatever they do there; of all notes.", FigureGroup::degrees,
     FigureRank::detail, FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_degree<6>>(m); }},
    {"tensions", "tensions", "plays clearly more tensions", "plays clearly fewer tensions",
     "Ninths, elevenths and thirteenths that stand for their own sake, of all notes.", FigureGroup::other_notes,
     FigureRank::main, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_role<Role::tension>>(m); }},
    {"non_chord_tones", "non-chord tones", "plays clearly more non-chord tones", "plays clearly fewer non-chord tones",
     "Notes on their way to another, of all notes.", FigureGroup::other_notes, FigureRank::main, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_role<Role::non_chord_tone>>(m); }},
    {"outside", "outside notes", "plays clearly more outside notes", "plays clearly fewer outside notes",
     "Notes that nothing explains, of all notes.", FigureGroup::other_notes, FigureRank::main, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_role<Role::outside>>(m); }},
    {"passing_tones", "passing tones", "plays clearly more passing tones", "plays clearly fewer passing tones",
     "Notes that fill the way between two tones, of all notes.", FigureGroup::other_notes, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_figure<Figure::passing_tone>>(m); }},
    {"neighbour_tones", "neighbour tones", "plays clearly more neighbour tones", "plays clearly fewer neighbour tones",
     "Notes a step away from a tone and back, double neighbours included, of all notes.", FigureGroup::other_notes,
     FigureRank::detail, FigureUnit::notes,
     [](const Material& m) {
       return share_of_notes<any, is_figure<Figure::neighbour_tone, Figure::double_neighbour>>(m);
     }},
    {"approach_tones", "approach tones", "plays clearly more approach tones", "plays clearly fewer approach tones",
     "Notes reached by leap that step into their target, of all notes.", FigureGroup::other_notes, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_figure<Figure::approach_tone>>(m); }},
    {"enclosures", "notes in enclosures", "plays clearly more enclosures", "plays clearly fewer enclosures",
     "Notes that close in on their target from both sides, of all notes.", FigureGroup::other_notes, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_figure<Figure::enclosure>>(m); }},
    {"appoggiaturas", "appoggiaturas", "plays clearly more appoggiaturas", "plays clearly fewer appoggiaturas",
     "Notes that lean on a strong place and resolve by step, of all notes.", FigureGroup::other_notes,
     FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_figure<Figure::appoggiatura>>(m); }},
    {"escape_tones", "escape tones", "plays clearly more escape tones", "plays clearly fewer escape tones",
     "Notes left by leap after a step, of all notes.", FigureGroup::other_notes, FigureRank::detail, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_figure<Figure::escape_tone>>(m); }},
    {"pedals", "pedals", "plays clearly more pedals", "plays clearly fewer pedals",
     "Notes held or repeated while the chords change, of all notes.", FigureGroup::other_notes, FigureRank::detail,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_figure<Figure::pedal>>(m); }},
    {"anticipations", "anticipations", "runs clearly more often ahead of the chord",
     "runs clearly less often ahead of the chord", "Tones of the next chord played before it arrives, of all notes.",
     FigureGroup::other_notes, FigureRank::main, FigureUnit::notes,
     [](const Material& m) { return share_of_notes<any, is_early>(m); }},
    {"held_over", "suspensions and retardations", "holds clearly more tones over into the next chord",
     "holds clearly fewer tones over into the next chord",
     "Tones of the old chord kept over the change and led on by step, of all notes.", FigureGroup::other_notes,
     FigureRank::main, FigureUnit::notes,
     [](const Material& m) {
       return share_of_notes<any, is_placed<Placement::suspension, Placement::retardation>>(m);
     }},
    {"arpeggio_notes", "notes in arpeggios", "plays clearly more of the line as arpeggios",
     "plays clearly less of the line as arpeggios",
     "Notes that belong to an arpeggio of three notes or more, of all notes.", FigureGroup::arpeggios, FigureRank::main,
     FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_in_arpeggio>(m); }},
    {"arpeggio_time", "notes in arpeggios, by time", "spends clearly more of the time in arpeggios",
     "spends clearly less of the time in arpeggios", "The same, each note counted for as long as it lasts.",
     FigureGroup::arpeggios, FigureRank::detail, FigureUnit::time,
     [](const Material& m) { return share_of_time<any, is_in_arpeggio>(m); }},
    {"arpeggios_a_bar", "arpeggios to a bar", "plays clearly more arpeggios to a bar",
     "plays clearly fewer arpeggios to a bar", "How many arpeggios begin in a bar.", FigureGroup::arpeggios,
     FigureRank::detail, FigureUnit::per_bar, [](const Material& m) { return arpeggios_a_bar(m); }},
    {"notes_an_arpeggio", "notes to an arpeggio", "plays clearly longer arpeggios", "plays clearly shorter arpeggios",
     "How many members of the chord an arpeggio runs through, repeated ones included.", FigureGroup::arpeggios,
     FigureRank::main, FigureUnit::in_notes, [](const Material& m) { return notes_an_arpeggio(m); }},
    {"arpeggios_up", "arpeggios that go up", "takes clearly more arpeggios upward",
     "takes clearly fewer arpeggios upward", "Legs of arpeggios that ascend, of all legs.", FigureGroup::arpeggios,
     FigureRank::main, FigureUnit::arpeggios,
     [](const Material& m) { return share_of_legs<any_leg, goes<Direction::ascending>>(m); }},
    {"arpeggios_down", "arpeggios that come down", "takes clearly more arpeggios downward",
     "takes clearly fewer arpeggios downward", "Legs of arpeggios that descend, of all legs.", FigureGroup::arpeggios,
     FigureRank::main, FigureUnit::arpeggios,
     [](const Material& m) { return share_of_legs<any_leg, goes<Direction::descending>>(m); }},
    {"straight_descents", "descents straight down", "comes clearly more often straight down",
     "comes clearly less often straight down",
     "Descents that no climb through the same chord leads to, of all descents.", FigureGroup::arpeggios,
     FigureRank::main, FigureUnit::arpeggios,
     [](const Material& m) { return share_of_legs<goes<Direction::descending>, comes_straight_down>(m); }},
    {"complete_arpeggios", "complete arpeggios", "spells clearly more chords in full",
     "spells clearly fewer chords in full", "Arpeggios that have every tone of the chord, of all.",
     FigureGroup::arpeggios, FigureRank::main, FigureUnit::arpeggios,
     [](const Material& m) { return share_of_arpeggios<any_arpeggio, is_complete>(m); }},
    {"extended_arpeggios", "arpeggios to the 9th or beyond", "carries clearly more arpeggios up to the ninth or beyond",
     "carries clearly fewer arpeggios up to the ninth or beyond",
     "Arpeggios with a ninth, eleventh or thirteenth among their members, of all.", FigureGroup::arpeggios,
     FigureRank::detail, FigureUnit::arpeggios,
     [](const Material& m) { return share_of_arpeggios<any_arpeggio, is_extended>(m); }},
    {"ornamented_arpeggios", "ornamented arpeggios", "ornaments clearly more arpeggios",
     "ornaments clearly fewer arpeggios", "Arpeggios with foreign notes between their members, of all.",
     FigureGroup::arpeggios, FigureRank::detail, FigureUnit::arpeggios,
     [](const Material& m) { return share_of_arpeggios<any_arpeggio, is_ornamented>(m); }},
    {"changes_crossed", "changes with a connection", "connects the chords at clearly more changes",
     "connects the chords at clearly fewer changes",
     "Changes of chord with a note on both sides and no rest between, of all changes.", FigureGroup::connections,
     FigureRank::main, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<any_change, is_connected>(m); }},
    {"nearest_taken", "connections to nearest tones", "goes clearly more often to the nearest tone of the next chord",
     "goes clearly less often to the nearest tone of the next chord",
     "Connections to the common tone or to the nearest tone of the next chord, of all connections.",
     FigureGroup::connections, FigureRank::main, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, takes_nearest>(m); }},
    {"guide_tone_resolutions", "guide tones led or kept", "leads or keeps clearly more guide tones",
     "leads or keeps clearly fewer guide tones",
     "Connections from a seventh to a third or from a third to a seventh, down by step or kept, also by way of other "
     "notes, of "
     "all connections.",
     FigureGroup::connections, FigureRank::main, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, leads_guide_tone>(m); }},
    {"crossed_by_common_tone", "connections on a common tone", "connects clearly more often on a common tone",
     "connects clearly less often on a common tone", "Connections on a common tone, of all connections.",
     FigureGroup::connections, FigureRank::detail, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, is_kind<ConnectionKind::common_tone>>(m); }},
    {"crossed_by_half_step", "connections by half step", "connects clearly more often by half step",
     "connects clearly less often by half step", "Connections by half step, of all connections.",
     FigureGroup::connections, FigureRank::detail, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, is_kind<ConnectionKind::half_step>>(m); }},
    {"crossed_by_whole_step", "connections by whole step", "connects clearly more often by whole step",
     "connects clearly less often by whole step", "Connections by whole step, of all connections.",
     FigureGroup::connections, FigureRank::detail, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, is_kind<ConnectionKind::whole_step>>(m); }},
    {"crossed_by_third", "connections by third", "connects clearly more often by third",
     "connects clearly less often by third", "Connections by third, of all connections.", FigureGroup::connections,
     FigureRank::detail, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, is_kind<ConnectionKind::third>>(m); }},
    {"crossed_by_leap", "connections by leap", "connects clearly more often by leap",
     "connects clearly less often by leap", "Connections by leap, of all connections.", FigureGroup::connections,
     FigureRank::detail, FigureUnit::connections,
     [](const Material& m) { return share_of_connections<is_connected, is_kind<ConnectionKind::leap>>(m); }},
    {"thread_step", "motion of the thread", "moves clearly further at each change along its thread",
     "moves clearly less at each change along its thread",
     "Semitones at each change on the path that moves least through the chord tones the line sounds.",
     FigureGroup::connections, FigureRank::main, FigureUnit::in_semitones,
     [](const Material& m) { return thread_step(m); }},
    {"thirds_given", "chords that get their third", "gives clearly more chords their third",
     "gives clearly fewer chords their third", "Chords that hear their third, of the chords that have one and a note.",
     FigureGroup::guide_tones, FigureRank::main, FigureUnit::chords,
     [](const Material& m) { return share_of_chords<has_third, gets_third>(m); }},
    {"sevenths_given", "chords that get their seventh", "gives clearly more chords their seventh",
     "gives clearly fewer chords their seventh",
     "Chords that hear their seventh, of the chords that have one and a note.", FigureGroup::guide_tones,
     FigureRank::main, FigureUnit::chords,
     [](const Material& m) { return share_of_chords<has_seventh, gets_seventh>(m); }},
    {"both_given", "chords that get both", "gives clearly more chords both third and seventh",
     "gives clearly fewer chords both third and seventh",
     "Chords that hear third and seventh, of the chords that have both and a note.", FigureGroup::guide_tones,
     FigureRank::detail, FigureUnit::chords, [](const Material& m) { return share_of_chords<has_both, gets_both>(m); }},
    {"wait_for_guide_tone", "wait for third or seventh", "gets to the third or seventh of a chord clearly later",
     "gets to the third or seventh of a chord clearly sooner",
     "Beats (quarter notes) from the arrival of a chord to its first third or seventh; one played early is below zero.",
     FigureGroup::guide_tones, FigureRank::main, FigureUnit::in_beats,
     [](const Material& m) { return wait_for_a_guide_tone(m); }},
    {"chords_guessed", "chords told by the notes alone", "tells clearly more chords by the notes alone",
     "tells clearly fewer chords by the notes alone",
     "Chords that a listener who does not hear the changes would guess right, of the chords with a note.",
     FigureGroup::guide_tones, FigureRank::main, FigureUnit::chords,
     [](const Material& m) { return chords_guessed(m); }},
    {"bits_a_chord", "how plainly the notes tell it", "tells the chords clearly more plainly by the notes alone",
     "tells the chords clearly less plainly by the notes alone",
     "Bits won over a blind guess, a chord; each bit halves the chords that are left.", FigureGroup::guide_tones,
     FigureRank::detail, FigureUnit::in_bits, [](const Material& m) { return bits_a_chord(m); }},
    {"notes_a_bar", "notes to a bar", "plays clearly more notes to a bar", "plays clearly fewer notes to a bar",
     "Notes struck in a bar, rests included.", FigureGroup::line, FigureRank::main, FigureUnit::per_bar,
     [](const Material& m) { return notes_a_bar(m); }},
    {"time_filled", "time filled with notes", "leaves clearly less space", "leaves clearly more space",
     "How much of the time a note sounds.", FigureGroup::line, FigureRank::main, FigureUnit::time,
     [](const Material& m) { return time_filled(m); }},
    {"notes_a_phrase", "notes to a phrase", "plays clearly longer phrases", "plays clearly shorter phrases",
     "Notes from one breath to the next.", FigureGroup::line, FigureRank::main, FigureUnit::in_notes,
     [](const Material& m) { return notes_a_phrase(m); }},
    {"phrases_end_on_chord_tone", "phrases ending on a chord tone", "ends clearly more phrases on a chord tone",
     "ends clearly fewer phrases on a chord tone", "Phrases whose last note is a chord tone, of all phrases.",
     FigureGroup::line, FigureRank::main, FigureUnit::phrases,
     [](const Material& m) { return phrases_that_end_on_a_chord_tone(m); }},
    {"riff_notes", "notes in riffs", "plays clearly more of the line as riffs",
     "plays clearly less of the line as riffs",
     "Notes of figures that are played three times or more at short distance, of all notes.", FigureGroup::line,
     FigureRank::main, FigureUnit::notes, [](const Material& m) { return share_of_notes<any, is_in_riff>(m); }},
};

}  // namespace

bool is_share_of_counted(FigureUnit unit) { return is_share(unit) && unit != FigureUnit::time; }

bool is_share(FigureUnit unit) { return unit <= FigureUnit::phrases; }

std::span<const FigureRow> figure_rows() { return rows; }

const char* heading(FigureGroup group) {
  switch (group) {
    case FigureGroup::chord_tones: return "Chord tones";
    case FigureGroup::degrees: return "Degrees, of all notes";
    case FigureGroup::other_notes: return "Other notes, of all notes";
    case FigureGroup::arpeggios: return "Arpeggios";
    case FigureGroup::connections: return "Connections";
    case FigureGroup::guide_tones: return "Thirds and sevenths";
    case FigureGroup::line: return "The line";
  }
  return "";
}

}  // namespace insideline
