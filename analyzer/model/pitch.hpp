// Spelled pitch: F sharp and G flat are different notes here, because players
// hear them as different degrees. Middle C is C4, MIDI 60.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace insideline {

enum class Step : std::uint8_t { c, d, e, f, g, a, b };

/// A letter with its accidental and no octave: "Bb", "F#", "C".
struct NoteName {
  Step step = Step::c;
  int alter = 0;  ///< semitones: -1 flat, +1 sharp, +-2 doubles
  friend auto operator<=>(const NoteName&, const NoteName&) = default;
};

/// A note name in an octave. The octave is that of the letter: Cb4 sounds as B3.
struct Pitch {
  NoteName name;
  int octave = 4;
  friend bool operator==(const Pitch&, const Pitch&) = default;
};

/// A spelled distance. A minor third is {2 steps, 3 semitones}; down is negative.
constexpr int semitones_in_octave = 12;

struct Interval {
  int steps = 0;
  int semitones = 0;
  friend bool operator==(const Interval&, const Interval&) = default;
  /// The same way back: a third down for a third up.
  friend constexpr Interval operator-(const Interval& interval) { return {-interval.steps, -interval.semitones}; }
};

/// A chord or scale degree counted from the major scale on the root:
/// b9 is {9, -1}, bb7 is {7, -2}, the sixth of a sixth chord is {6, 0}.
struct Degree {
  int number = 1;  ///< 1..13
  int alter = 0;   ///< semitones against the major scale
  friend auto operator<=>(const Degree&, const Degree&) = default;
};

/// 0 = C ... 11 = B.
int pitch_class(const NoteName& name);
/// MIDI note number; 60 is C4.
int midi_number(const Pitch& pitch);
/// Semitones of a degree above its root, octaves kept: 9 is 14.
int semitones_above_root(const Degree& degree);
/// 0..11.
int pitch_class_above_root(const Degree& degree);

/// The note that stands at `degree` of a chord on `root`: the b9 of C is Db.
NoteName note_at(const NoteName& root, const Degree& degree);
/// The spelled degree of `name` over `root`, with the numbers 1 9 3 11 5 13 7.
Degree degree_of(const NoteName& name, const NoteName& root);

Pitch transposed(const Pitch& pitch, const Interval& by);
NoteName transposed(const NoteName& name, const Interval& by);
/// The spelled distance from `from` up (or, negative, down) to `to`.
Interval interval_between(const Pitch& from, const Pitch& to);
/// The usual spelling of a chromatic distance: -14 is a major ninth down {-8, -14}.
Interval usual_interval(int semitones);

/// The pitch of MIDI number `midi` written with `name`'s letter and accidental.
/// The pitch classes must agree.
Pitch spelled_pitch(int midi, const NoteName& name);

/// The pitch itself where two accidentals are enough; else it sounds the same and is spelled plainly: C sharp for a
/// triple-flat E.
Pitch writable(const Pitch& pitch);

/// "Bb", "F##".
std::string to_string(const NoteName& name);
/// "Bb3".
std::string to_string(const Pitch& pitch);
/// "b9", "#11", "bb7".
std::string to_string(const Degree& degree);

/// "Bb", "F#", "Cbb"; capital letter first. None for anything else.
std::optional<NoteName> parse_note_name(std::string_view text);
/// "Bb3", "C-1". None for anything else.
std::optional<Pitch> parse_pitch(std::string_view text);
/// "b9", "#11", "5". None for anything else.
std::optional<Degree> parse_degree(std::string_view text);

}  // namespace insideline
