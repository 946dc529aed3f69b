// One part as it stands on the page: measures in written order with their notes, chord
// symbols and road signs. Nothing is played out or repaired yet.
#pragma once

#include "analyzer/model/chord.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

struct WrittenNote {
  Beats position;  ///< from the start of its measure
  Beats duration;  ///< 0 for a grace note
  Pitch pitch;     ///< sounding
  Pitch written;
  std::size_t element = 0;  ///< running number of the <note> in the document
  std::uint16_t voice = 0;  ///< index into WrittenPart::voices
  bool grace = false;
  bool chord_member = false;  ///< sounds together with the note before it
  bool tied_from = false;     ///< goes on sounding from a note before
  bool tied_on = false;       ///< goes on sounding into a note after
  std::uint32_t passes = 0;   ///< bit n: played the n-th time through a repeat (from 1); 0: every time
};

/// Whether there is a time through the measure in which both are played.
inline bool share_a_pass(const WrittenNote& a, const WrittenNote& b) {
  return a.passes == 0 || b.passes == 0 || (a.passes & b.passes) != 0;
}

struct WrittenChord {
  Beats position;         ///< from the start of its measure
  std::size_t chord = 0;  ///< index into WrittenPart::chords
  Beats room{};           ///< of the note or rest that it stands over; 0 where none begins there
};

struct BackwardRepeat {
  int times = 2;            ///< how often the section is played in all
  bool after_jump = false;  ///< played again after a da capo or dal segno too
};

/// What a measure says about the order of playing.
struct RoadSigns {
  bool forward_repeat = false;
  std::optional<BackwardRepeat> backward_repeat;
  std::vector<int> ending_start;  ///< the passes for which the ending that begins here is played
  bool ending_stop = false;
  bool da_capo = false;
  bool fine = false;
  int last_ending = 0;         ///< the jump ends with the ending of this pass ("D.C. al 2nd ending"); 0 for none
  std::string segno;           ///< a name to jump to
  std::string coda;            ///< a name to jump to
  std::string dal_segno;       ///< the name of the segno to jump to
  std::string to_coda;         ///< the name of the coda to jump to
  std::vector<int> time_only;  ///< the passes in which the jump is taken; empty: as usual
  bool segno_printed = false;  ///< the sign alone, with nothing that says how it sounds
  bool coda_printed = false;   ///< the sign alone: where to jump from or where to jump to
};

struct WrittenMeasure {
  std::string number;  ///< as printed, "12", "X1"
  std::ptrdiff_t offset_bytes = 0;
  bool implicit = false;
  Beats content;                    ///< where its last note or rest ends; 0 for an empty measure
  std::optional<Meter> meter;       ///< in force; none before the first time signature and for senza misura
  std::optional<Key> key;           ///< of the sounding pitches, where it changes here
  bool holds_bar_rest = false;      ///< a rest that lasts the bar, however long it claims to be
  std::string section;              ///< the rehearsal mark
  bool double_line_before = false;  ///< a double bar line at its beginning, or at its end
  bool double_line_after = false;
  std::size_t first_note = 0;  ///< its notes are WrittenPart::notes [first_note, end_note)
  std::size_t end_note = 0;
  std::size_t first_chord = 0;  ///< its chord symbols are WrittenPart::symbols [first_chord, end_chord)
  std::size_t end_chord = 0;
};

struct Voice {
  std::string name;  ///< as the score numbers it
  std::size_t notes = 0;
  std::size_t chord_members = 0;
  std::size_t hidden = 0;  ///< there to be heard (a written-out trill) but not printed
};

struct WrittenPart {
  std::string name;
  std::vector<WrittenMeasure> measures;
  std::vector<RoadSigns> signs;  ///< parallel to `measures`
  std::vector<WrittenNote> notes;
  std::vector<WrittenChord> symbols;
  std::vector<std::optional<Chord>> chords;  ///< the different ones, sounding; none is N.C.
  std::vector<Voice> voices;
  std::optional<Interval> transposition;  ///< the first one in force; none where the part states none
  std::optional<double> tempo_bpm;
};

}  // namespace insideline::io
