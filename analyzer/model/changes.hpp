// The changes under a solo. `Changes` is what a chart says: one pass of the
// form, or the chords written over a score. `Harmony` is what sounds under one
// solo: the chart laid out along its bars, chorus after chorus.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/chord.hpp"
#include "analyzer/model/pitch.hpp"

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline {

struct Meter {
  int beats = 4;  ///< > 0
  int unit = 4;   ///< the note value that counts as one beat: 1, 2, 4, 8, 16 ...
  friend bool operator==(const Meter&, const Meter&) = default;
};

/// The length of a full bar.
Beats bar_length(const Meter& meter);
/// The length of one counted beat: 1 in 4/4, 1/2 in 6/8.
Beats beat_length(const Meter& meter);
/// "4/4".
std::string to_string(const Meter& meter);

/// A mode that is neither major nor minor.
enum class Mode : std::uint8_t { none, dorian, phrygian, lydian, mixolydian, locrian };

struct Key {
  int fifths = 0;  ///< the signature, sharps above zero, flats below: Eb major is -3, D dorian 0
  bool minor = false;
  Mode mode = Mode::none;  ///< if any, `minor` is false
  friend bool operator==(const Key&, const Key&) = default;
};
/// "Eb", "C minor", "D dorian".
std::string to_string(const Key& key);
/// "major", "minor", "dorian".
std::string_view mode_name(const Key& key);
/// The key of a signature and the name of its mode, "ionian" and "aeolian" among them; none for another word.
std::optional<Key> key_with_mode(int fifths, std::string_view mode);
/// How many fifths the tonic lies above the major tonic of the same signature: C minor 3, D dorian 2.
int tonic_above_major(const Key& key);

/// The place of a note on the line of fifths: C is 0, G 1, F -1; as a major tonic, its signs.
int fifths_of(const NoteName& name);

/// The key moved by `by`; beyond seven signs, its usual enharmonic: Fb is E.
Key transposed(const Key& key, const Interval& by);

/// A stretch of a chart under one symbol. No chord means N.C.
struct ChordSpan {
  std::optional<Chord> chord;
  Beats onset;     ///< from the start of the form (bar 1 of the chart)
  Beats duration;  ///< > 0
};

struct FormBar {
  Beats onset;
  Beats length;
  std::string section;           ///< "A", or empty
  std::optional<Meter> meter{};  ///< where the bar is not in the meter of the chart
  bool starts_section = false;   ///< its letter stands here; the A of "A A" begins twice
};

enum class Extent : std::uint8_t {
  once,    ///< written over a score: the last chord holds to the end
  looping  ///< a form: it starts again for as long as the solo lasts
};

struct Changes {
  std::string title;
  std::optional<Key> key;
  std::optional<Meter> meter;    ///< as the chart states it at its head, if it does
  std::optional<Beats> pickup;   ///< beats before bar 1, if the chart states them
  std::vector<FormBar> bars;     ///< one pass of the form, in order, without gaps
  std::vector<ChordSpan> spans;  ///< in order; for a looping chart without gaps
  Extent extent = Extent::looping;
};

/// The length of one pass of the form.
Beats form_length(const Changes& changes);

/// The meter of a bar of the chart; 4/4 where the chart states none.
Meter meter_of(const Changes& changes, const FormBar& bar);

/// The chart moved by `by`: chords and key, the chords spelled as the moved key is.
Changes transposed(const Changes& changes, const Interval& by);

/// A chord at the place where it sounds under a solo.
struct SoundingChord {
  Chord chord;
  Beats onset;     ///< from the start of the solo's first full bar
  Beats duration;  ///< > 0; cut at the end of the solo
  int bar = 1;     ///< the bar of the solo it starts in
  int chorus = 1;
  int stretch = 0;  ///< chords side by side that are the same share this number
};

/// A lettered part of the form where it falls under a solo.
struct SoundingSection {
  std::string name;  ///< "A", "Bridge"; never empty
  Beats onset;       ///< from the start of the solo's first full bar
  Beats duration;    ///< > 0; cut at the ends of the solo
  int chorus = 1;
  int first_bar = 1;  ///< bars of the solo
  int last_bar = 1;   ///< included
};

struct Harmony {
  std::vector<SoundingChord> chords;  ///< in order of onset; a gap is N.C.
  int choruses = 1;
  Beats chorus_length;                      ///< 0 where the changes do not loop
  Beats first_chorus;                       ///< where bar 1 of the chart first falls
  std::vector<SoundingSection> sections{};  ///< in order; empty where nothing is lettered
};

/// Index into `harmony.chords` of the chord that sounds at `position`; none under N.C.
std::optional<std::size_t> chord_index_at(const Harmony& harmony, const Beats& position);

/// The nearest chord before (after) `index` that is a different one, across
/// restatements of the same chord; none at the ends and where N.C. lies between.
std::optional<std::size_t> chord_before(const Harmony& harmony, std::size_t index);
std::optional<std::size_t> chord_after(const Harmony& harmony, std::size_t index);

/// Where chord `index` and its restatements begin and end.
Beats stretch_onset(const Harmony& harmony, std::size_t index);
Beats stretch_end(const Harmony& harmony, std::size_t index);

}  // namespace insideline
