// One voice of a tune, written down measure by measure as it is read: lengths, accidentals, ties, tuplets and broken
// rhythm become notes at their places.
// Source: the ABC music standard 2.1 (abcnotation), from memory: 4.2 to 4.5, 4.11 to 4.13, 4.17, 7.4.
#pragma once

#include "io/abc/abc_fields.hpp"
#include "io/abc/abc_signs.hpp"
#include "io/musicxml/notices.hpp"
#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace insideline::io {

/// How far the sign before a note reaches until the bar line.
enum class AccidentalReach : std::uint8_t { the_note, the_octave, all_octaves };

/// What is in force where reading has got to.
struct AbcSettings {
  std::optional<Beats> unit;  ///< the unit note length in quarters; none: usual_abc_unit
  std::optional<Meter> meter{Meter{}};
  AbcKey key;
  AbcStaff staff;
  AccidentalReach reach = AccidentalReach::all_octaves;
};

/// Promise: `part.measures` and `part.signs` stay parallel, and a note lies in the last measure when it is added.
class VoiceWriter {
 public:
  VoiceWriter(const AbcText& source, AbcSettings settings, std::string name, Notices& notices);

  /// A note, or the notes of a chord, of `length` times the unit; each pair is a note and its own part of the length.
  void add_notes(std::span<const AbcNote> notes, const Beats& length);
  void add_grace(const AbcNote& note);
  void add_rest(const Beats& length, std::size_t offset_bytes);
  /// Bars of rest; each but the last is closed.
  void add_bar_rests(int bars, std::size_t offset_bytes);
  void tie(std::size_t offset_bytes);
  /// `signs` times ">" (or, below zero, "<").
  void break_rhythm(int signs, std::size_t offset_bytes);
  void begin_tuplet(const AbcTuplet& tuplet);
  void add_chord(const std::optional<Chord>& chord, std::string_view text, std::size_t offset_bytes);
  void bar_line(const AbcBarSign& bar, std::size_t offset_bytes);
  /// "&": what follows sounds together with the bar so far.
  void begin_overlay();
  void begin_section(std::string_view name);
  void set_staff(const AbcStaff& staff);
  void finish();

  /// Where a sign of the road map belongs that stands here.
  RoadSigns& signs_here();

  AbcSettings settings;
  WrittenPart part;
  std::string user_signs;  ///< letters that U: made signs over a note

 private:
  void open_measure(std::size_t offset_bytes);
  void close_measure();
  void number_measures();
  [[nodiscard]] Beats unit_length() const;
  [[nodiscard]] Interval transposition() const;
  /// The length as it is after tuplet and broken rhythm, and both used up.
  Beats played_length(const Beats& length);
  void advance(const Beats& duration, std::size_t offset_bytes);
  /// The pitch as written; `tied` where it goes on from the note before.
  Pitch pitch_of(const AbcNote& note, bool& tied);
  WrittenNote& push_note(const AbcNote& note);

  /// The notes or the rest that came last.
  struct Group {
    std::size_t first_note = 0;
    std::size_t end_note = 0;
    Beats position;
    Beats duration;
  };

  const AbcText& source_;
  Notices& notices_;
  bool open_ = false;
  Beats position_;
  std::optional<Group> last_;
  Beats next_factor_ = 1;  // what a broken rhythm leaves for the note to come
  std::optional<AbcTuplet> tuplet_;
  std::map<std::pair<Step, int>, int> altered_;  // signs of this bar; octave 0 stands for all
  std::vector<Pitch> tied_;                      // as written, waiting for the note they go on in
  std::map<std::pair<std::string, int>, std::size_t> known_chords_;
  RoadSigns pending_;
  std::string section_;
  std::optional<Key> announced_key_;
  bool ending_open_ = false;
  bool repeat_open_ = false;
  std::uint16_t voice_ = 0;
};

}  // namespace insideline::io
