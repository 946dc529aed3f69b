// The results. They stand beside the solo and the harmony and never inside them.
// `analyze` is a pure function: the same line over the same changes gives the same answer.
#pragma once

#include "analyzer/measures/results.hpp"
#include "analyzer/measures/time_feel.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/patterns/results.hpp"
#include "analyzer/settings.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

enum class Role : std::uint8_t { chord_tone, tension, non_chord_tone, outside, no_chord };

enum class Figure : std::uint8_t {
  root,
  second,
  third,
  fourth,
  fifth,
  sixth,
  seventh,
  ninth,
  eleventh,
  thirteenth,
  passing_tone,
  neighbour_tone,
  double_neighbour,
  approach_tone,
  enclosure,
  appoggiatura,
  escape_tone,
  pedal,
  unexplained,
  none
};

enum class Placement : std::uint8_t { in_place, anticipation, suspension, retardation };

/// Another way to hear a note, with how likely it is.
struct Alternative {
  Role role = Role::chord_tone;
  Figure figure = Figure::root;
  std::optional<std::size_t> governor;
  double probability = 0.0;  ///< 0..1
};

/// What one note is and does. Runs parallel to `Solo::notes`.
struct NoteLabel {
  std::optional<std::size_t> chord;     ///< sounding at the onset; none under N.C. and in a pickup
  std::optional<std::size_t> governor;  ///< the chord the note is heard against
  Placement placement = Placement::in_place;
  std::optional<Degree> degree;  ///< against the governor
  Role role = Role::no_chord;
  Figure figure = Figure::none;
  std::optional<std::size_t> resolves_to;  ///< the note a non-chord tone leads to
  int slips = 0;                           ///< semitones to the chord it plays with its neighbours; 0: no side-slip
  double confidence = 1.0;                 ///< probability of the label as shown, role and figure, 0..1
  double role_probability = 1.0;           ///< of the role alone; never less
  bool pinned = false;                     ///< set by a listener, Settings::pins
  std::vector<Alternative> alternatives;   ///< most likely first; empty unless Detail::reasons is asked for
  std::string reason;                      ///< one sentence; empty unless Detail::reasons is asked for
};

enum class Direction : std::uint8_t { ascending, descending, mixed };
enum class Inversion : std::uint8_t { root_position, first, second, third, none };

/// A part of an arpeggio that keeps its direction through three or more different members: what is counted as an
/// arpeggio up or down. The note on which the line turns belongs to both legs.
struct Leg {
  std::size_t first = 0;                           ///< index into Arpeggio::notes
  std::size_t last = 0;                            ///< included
  Direction direction = Direction::ascending;      ///< never mixed
  Inversion inversion = Inversion::root_position;  ///< by its own lowest note
  bool prepared = false;  ///< a leg the other way through the same chord goes before it in the phrase
};

/// With nothing the other way through the chord before it.
inline bool comes_straight_down(const Leg& leg) { return leg.direction == Direction::descending && !leg.prepared; }

/// A run through the members of one chord: its own, or one that is played over it.
struct Arpeggio {
  std::vector<std::size_t> notes;          ///< the members, in order
  std::vector<std::size_t> ornaments;      ///< foreign notes between them; empty for a plain arpeggio
  std::size_t governor = 0;                ///< the chord it is heard against: the one it spells, where that is at hand
  std::vector<Degree> degrees;             ///< against the governor, parallel to `notes`
  std::vector<Leg> legs;                   ///< in order; none where it turns at every other note
  Direction direction = Direction::mixed;  ///< of all its legs; mixed: both ways, or no leg
  Inversion inversion = Inversion::root_position;  ///< by the lowest note; `none` where that is an extension
  bool complete = false;                           ///< every tone of the chord is there
  std::string spells;                              ///< the chord its own notes make: "Em7" over Cmaj7; empty if none
  std::optional<int> slipped;                      ///< side-slipped: semitones from the governor to the chord played
  bool straight_descent = false;                   ///< one of its legs does, comes_straight_down()
  bool octave_displaced = false;                   ///< a member is moved by an octave against the run
  bool repeats = false;                            ///< a member is struck again before the next
  int span_semitones = 0;                          ///< from its lowest to its highest note
};

inline bool goes_both_ways(const Arpeggio& arpeggio) {
  bool up = false;
  bool down = false;
  for (const Leg& leg : arpeggio.legs) (leg.direction == Direction::ascending ? up : down) = true;
  return up && down;
}

enum class ConnectionKind : std::uint8_t { common_tone, half_step, whole_step, third, leap, none };

/// A guide tone that is led home by way of other notes: C over G7, then A A# B.
struct LateResolution {
  std::size_t from_note = 0;  ///< the seventh or third of the old chord, perhaps held over or struck again in the new
  std::size_t to_note = 0;    ///< the third or seventh of the new chord
  Degree from_degree;         ///< against the old chord
  Degree to_degree;           ///< against the new one
};

/// How the line connects a chord with the next.
struct Connection {
  std::size_t from_chord = 0;
  std::size_t to_chord = 0;
  std::optional<std::size_t> from_note;  ///< last note heard against the old chord
  std::optional<std::size_t> to_note;    ///< first note heard against the new one
  std::optional<Degree> from_degree;
  std::optional<Degree> to_degree;
  std::optional<int> semitones;
  ConnectionKind kind = ConnectionKind::none;
  bool guide_tone = false;  ///< from note to note: seventh to third or third to seventh, held or led home by step
  std::optional<LateResolution> late;  ///< the same by way of other notes; none where `guide_tone`
  std::optional<Pitch> nearest_up;     ///< the closest tone of the new chord above the note left
  std::optional<Pitch> nearest_down;
  std::optional<bool> took_nearest;  ///< the nearer of the two, either of them where equal, or the common tone
};

/// At once or by way of other notes.
inline bool leads_guide_tone(const Connection& connection) { return connection.guide_tone || connection.late; }

/// Two or three notes in a row on tones of one chord, none a step from the last, and how often they come.
struct Cell {
  std::vector<Degree> degrees;  ///< two or three, neighbours differ
  Direction direction = Direction::mixed;
  ChordQuality quality = ChordQuality::other;
  int count = 0;
};

/// The path through one chorus that moves least, one sounded chord tone a chord.
struct Thread {
  int chorus = 1;
  std::vector<std::size_t> notes;   ///< one a chord that the line gives a tone to
  int chords = 0;                   ///< chords in the chorus
  int semitones = 0;                ///< the whole motion of the path
  int least_possible = 0;           ///< if every tone of the same chords were at hand
  std::optional<double> by_chance;  ///< mean of the same line over the changes turned round; none without a turn
};

/// A bar worth looking at first.
struct TellingBar {
  int bar = 1;
  std::size_t first_note = 0;
  std::size_t last_note = 0;  ///< included
  std::string why;            ///< one sentence
};

/// Notes that belong together to a chord beside the one that sounds: a side-slip.
struct OutsideEvent {
  std::size_t first = 0;  ///< index into Solo::notes
  std::size_t last = 0;   ///< included
  std::size_t chord = 0;  ///< index into Harmony::chords: what sounds
  int semitones = 1;      ///< from that chord to the one that is played: -5 to 6, never 0
  std::string plays;      ///< the symbol of the chord that is played: "Ebm7"
};

/// Counts are notes that count: grace notes and notes under N.C. are left out of shares.
struct Summary {
  int notes = 0;
  int chord_tones = 0;
  int tensions = 0;
  int non_chord_tones = 0;
  int outside = 0;
  int no_chord = 0;
  int grace_notes = 0;
  Share chord_tone_share;
  Share chord_tone_share_strict;
  std::optional<double> chord_tone_share_by_duration;
  std::optional<double> chord_tone_share_by_duration_strict;
  Share chord_tone_share_on_beat;
  Share chord_tone_share_off_beat;
  Share chord_tone_share_on_strong_beats;  ///< beats 1 and 3 of 4/4
  Share chord_tone_share_on_changes;
  Share thirds_given;  ///< chords that get their third
  Share sevenths_given;
  Share arpeggio_share;
  std::optional<double> arpeggio_share_by_duration;
  int arpeggios = 0;             ///< fragments
  int arpeggios_ascending = 0;   ///< legs that go up
  int arpeggios_descending = 0;  ///< legs that come down
  int arpeggios_mixed = 0;       ///< fragments that go both ways, or turn without a leg each way
  int arpeggios_two_way = 0;     ///< fragments with legs both ways
  int straight_descents = 0;     ///< legs, comes_straight_down()
  int connections = 0;
  std::map<ConnectionKind, int> connections_by_kind;  ///< every kind is there
  Share nearest_taken_share;
  Share guide_tone_resolutions;  ///< of the connections with a note on both sides
  int guide_tones_kept = 0;      ///< of these resolutions, those in which one note is both
  int guide_tones_late = 0;      ///< of these resolutions, those by way of other notes
  std::map<Figure, int> figures;
  std::map<Placement, int> placements;
  Chance chance;                 ///< the changes turned round by whole bars
  Chance chance_by_transposing;  ///< the line moved by 1 to 11 semitones over the same changes; from Detail::figures on
};

/// A phrase: notes `first` to `last`, both included.
struct Phrase {
  std::size_t first = 0;
  std::size_t last = 0;
};

struct Analysis {
  Detail detail = Detail::reasons;  ///< what was asked for; no more may be shown
  Harmony harmony;
  std::vector<NoteLabel> labels;  ///< parallel to Solo::notes
  std::vector<Phrase> phrases;
  std::vector<Arpeggio> arpeggios;
  std::vector<Connection> connections;
  std::vector<Cell> cells;      ///< most frequent first; from Detail::figures on
  std::vector<Thread> threads;  ///< one a chorus; from Detail::figures on
  Patterns patterns;
  Densities densities;
  std::vector<PhraseFigures> phrase_figures;      ///< parallel to `phrases`; from Detail::figures on
  std::vector<SectionFigures> section_figures{};  ///< one a name, as they first come; from Detail::figures on
  Outline outline;
  HeardHarmony heard;
  std::optional<TimeFeel> time_feel;         ///< of a performance; none for a score
  std::vector<OutsideEvent> outside_events;  ///< in order
  std::vector<TellingBar> telling_bars;      ///< at most three, the most telling first
  Summary summary;
  std::vector<std::string> warnings;
};

/// All that is found in a solo, at sounding pitch, times in quarter notes. What must hold: `solo` is as its comments
/// say, each note longer than nothing but grace notes, which take no time; `harmony` is `lay_out` of the changes under
/// this very solo. The same input gives the same result. A pin that cannot be is left out (`pin_faults` tells why).
/// Throws std::overflow_error where a time leaves 64 bits.
Analysis analyze(const Solo& solo, Harmony harmony, const Settings& settings = {});

/// The same for a line whose phrases and labels are known; pins are not looked at. `labels` run parallel to
/// `solo.notes`, `phrases` cover them.
Analysis analyze_labelled(const Solo& solo, Harmony harmony, std::vector<Phrase> phrases, std::vector<NoteLabel> labels,
                          const Settings& settings = {});

/// The words of the analysis file: "chord tone", "passing tone", "in place" ...
std::string to_string(Role role);
std::string to_string(Figure figure);
std::string to_string(Placement placement);
std::string to_string(Direction direction);
std::string to_string(Inversion inversion);
std::string to_string(ConnectionKind kind);

}  // namespace insideline
