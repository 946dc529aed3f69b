// The solo: one melodic line, its bars, and where each note stands on the page.
// Everything is in sounding pitch and in the order it is played.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/pitch.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

/// Where a note is written, which differs from when it sounds once a repeat is played.
struct WrittenPlace {
  std::string bar;          ///< the bar number printed on the page, "12", "X1"
  Beats position;           ///< from the start of that written bar
  std::size_t element = 0;  ///< running number of the note in the source document, from 0
  friend bool operator==(const WrittenPlace&, const WrittenPlace&) = default;
};

struct Note {
  Beats onset;     ///< from the start of the first full bar; a pickup is negative
  Beats duration;  ///< > 0, ties joined; 0 for a grace note
  Pitch pitch;     ///< sounding
  Pitch written;   ///< as the part writes it
  bool grace = false;
  bool spelled = true;  ///< the name counts: the source gave it (MIDI does not), or the harmony did
  WrittenPlace place;
  bool spelled_by_chords = false;  ///< the name is not the source's, it was worked out from the chords
};

struct Bar {
  int number = 1;  ///< 1 is the first full bar; a pickup is bar 0
  Beats onset;
  Beats length;  ///< as it sounds; a pickup is shorter than its meter
  Meter meter;
};

struct KeyChange {
  Beats onset;
  Key key;  ///< of the sounding pitches
};

/// A letter or a word in a box above the line: a section of the form begins.
struct RehearsalMark {
  Beats onset;
  std::string name;  ///< never empty
};

/// How a note was really played, before it was moved to its place on the page.
struct PerformedNote {
  double onset_seconds = 0.0;
  double duration_seconds = 0.0;
  double onset_beats = 0.0;      ///< where it sounded on the scale of Note::onset, in quarter notes
  double quarter_seconds = 0.5;  ///< how long a quarter note lasts there
};

struct Solo {
  std::string title;
  std::string part;                 ///< the name of the part or track
  Interval sounding_minus_written;  ///< a B flat tenor part is {-8, -14}
  std::vector<Bar> bars;            ///< in order, without gaps; every note lies in one
  std::vector<KeyChange> keys;
  std::vector<Note> notes;               ///< by onset; grace notes before the note they lead to
  std::optional<double> tempo_bpm;       ///< quarter notes per minute, where the source says
  std::vector<PerformedNote> performed;  ///< parallel to `notes`; empty for a score
  std::vector<RehearsalMark> marks{};    ///< in order, each at the beginning of a bar
  std::vector<Beats> double_bars{};      ///< where the source draws a double bar line inside the solo, in order
};

/// Index into `solo.bars` of the bar that holds `position`; the first or last bar
/// for a position outside. `solo.bars` must not be empty.
std::size_t bar_index_at(const Solo& solo, const Beats& position);

/// The counted beat of `position` in its bar: 1 on the downbeat, 3/2 on the "and"
/// of one in 4/4. A pickup is counted back from the bar line.
Beats beat_in_bar(const Bar& bar, const Beats& position);

Beats end_of(const Note& note);
/// The end of the last bar.
Beats end_of(const Solo& solo);

/// The key at `position`; none where the source names none.
std::optional<Key> key_at(const Solo& solo, const Beats& position);

}  // namespace insideline
