#include "analyzer/reading_pitch.hpp"

#include "analyzer/labels/degree_spelling.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

namespace insideline {
namespace {

constexpr int most_readable_signs = 6;
constexpr int fifths_between_enharmonics = 12;

/// The same distance in semitones, a letter up or down: C sharp becomes D flat.
Interval respelled_by(const Interval& by, int letters) { return {by.steps + letters, by.semitones}; }

/// How much a name stops a reader: nothing, a white key by another name, a double accidental.
int strangeness(const NoteName& name) {
  if (std::abs(name.alter) > 1) return std::abs(name.alter);
  const bool white_key_above = name.step == Step::e || name.step == Step::b;
  const bool white_key_below = name.step == Step::f || name.step == Step::c;
  return (name.alter == 1 && white_key_above) || (name.alter == -1 && white_key_below) ? 1 : 0;
}

/// A chord with its tones on `root`: its third and fifth stop a reader where they take a double accidental, as the F
/// double sharp of D sharp seventh does.
int strangeness(const Chord& chord, const NoteName& root) {
  int sum = 2 * strangeness(root);
  for (const Degree& degree : chord.tones) {
    const bool is_double = std::abs(note_at(root, degree).alter) > 1;
    if (is_double && (degree.number == 3 || degree.number == 5)) ++sum;
  }
  return sum;
}

/// The D sharp minor that a B flat tune gets where its source writes F sharp minor in D flat: players write E flat
/// minor. Diminished chords are spelled by where they lead.
bool is_far_from(const std::optional<Key>& key, const Chord& chord, const NoteName& root) {
  constexpr int far = 7;  // C sharp in C
  return key && quality(chord) != ChordQuality::diminished && std::abs(fifths_of(root) - key->fifths) > far;
}

/// `by`, or the same a letter up or down where that is less strange. What is `allowed` may stay as it is.
template <typename Strangeness>
Interval plainest(const NoteName& sounding, const Interval& by, int allowed, const Strangeness& strangeness_of) {
  Interval chosen = by;
  int least = strangeness_of(transposed(sounding, by));
  if (least <= allowed) return by;
  for (const int letters : {1, -1}) {
    const Interval other = respelled_by(by, letters);
    const int strange = strangeness_of(transposed(sounding, other));
    if (strange >= least) continue;
    least = strange;
    chosen = other;
  }
  return chosen;
}

/// A degree that pitch alone tells, whatever the note is called.
bool is_told_by_pitch(const NoteLabel& label) {
  return !label.degree || label.role == Role::chord_tone || label.role == Role::tension;
}

bool is_in_scale(const NoteName& name, const Key& key) {
  constexpr int names_in_scale = 7;
  const int above_lowest = fifths_of(name) - key.fifths + 1;
  return above_lowest >= 0 && above_lowest < names_in_scale;
}

/// A note over a chord as it is read, with what is known of it.
struct ReadNote {
  const NoteLabel& label;
  const Chord* chord = nullptr;  ///< as it is read; none where the note has none
  bool chord_respelled = false;
  std::optional<Key> key;  ///< as it is read
};

/// The raised ninth is a minor third to the hand as well: players write G over E7, not F double sharp.
bool is_sharp_ninth(const Degree& degree) { return degree == Degree{9, 1}; }

/// The name that goes with the degree that is said of the note; none where that degree does not sound as it does.
std::optional<NoteName> name_by_degree(const NoteName& moved, const ReadNote& note) {
  if (note.chord == nullptr || !note.label.degree) return std::nullopt;
  const NoteName name = note_at(note.chord->root, *note.label.degree);
  if (pitch_class(name) != pitch_class(moved)) return std::nullopt;
  if (is_sharp_ninth(*note.label.degree) && strangeness(name) > 0) return note_at(note.chord->root, {3, -1});
  return name;
}

/// Whether a plainer name makes a degree over the chord as players name them: F over A7 does, its b13; B over B flat
/// seventh is no degree, so its b9 stays a C flat.
bool has_plainer_degree(const NoteName& name, const Chord& chord) {
  for (const int letters : {1, -1}) {
    Note plain;
    plain.pitch = {transposed(name, Interval{letters, 0}), 4};
    plain.spelled = true;
    if (strangeness(plain.pitch.name) > 0) continue;
    const Degree degree = degree_of(plain.pitch.name, chord.root);
    if (degree_over(chord, plain, true) == degree && degree_over(chord, plain, false) == degree) return true;
  }
  return false;
}

/// The third of C sharp seventh stays an E sharp, and the fourth of the scale of G flat a C flat; of a chord that was
/// respelled no note needs to be one.
bool may_stay(const NoteName& name, const ReadNote& note, const std::optional<NoteName>& by_degree) {
  if (strangeness(name) == 0) return true;
  if (std::abs(name.alter) > 1 || note.chord_respelled) return false;
  if (note.key && is_in_scale(name, *note.key)) return true;
  return name == by_degree && (is_told_by_pitch(note.label) || !has_plainer_degree(name, *note.chord));
}

/// Whether the name says another degree than the one that pitch alone tells: an E flat that is the #11 of A7.
bool contradicts_degree(const NoteName& name, const ReadNote& note) {
  if (note.chord == nullptr || !note.label.degree || !is_told_by_pitch(note.label)) return false;
  const Degree& said = *note.label.degree;
  constexpr int letters = 7;
  const int spelled = degree_of(name, note.chord->root).number % letters;
  return spelled != said.number % letters && !(is_sharp_ninth(said) && spelled == 3);
}

/// `moved`, or the same sound by the name that its degree asks for, or by the plainest.
NoteName readable_name(const NoteName& moved, const ReadNote& note) {
  const auto by_degree = name_by_degree(moved, note);
  if (by_degree && strangeness(*by_degree) == 0 && contradicts_degree(moved, note)) return *by_degree;
  if (may_stay(moved, note, by_degree)) return moved;
  if (by_degree && may_stay(*by_degree, note, by_degree)) return *by_degree;
  NoteName plain = moved;
  for (const int letters : {1, -1}) {
    const NoteName other = transposed(moved, Interval{letters, 0});
    if (strangeness(other) < strangeness(plain)) plain = other;
  }
  return plain;
}

}  // namespace

ReadLine read_in(const ReadingPitch& pitch, const Solo& solo, const Harmony& harmony,
                 std::span<const NoteLabel> labels) {
  const Interval& by = pitch.above_sounding;
  const bool respells = pitch.respelling == Respelling::usual;
  const std::optional<Key> key = pitch.key ? std::optional(transposed(*pitch.key, by)) : std::nullopt;
  ReadLine line{solo, harmony};
  std::vector<Interval> of_chord;
  for (SoundingChord& sounding : line.harmony.chords) {
    Chord& chord = sounding.chord;
    const auto on_root = [&](const NoteName& root) {
      return strangeness(chord, root) + (is_far_from(key, chord, root) ? 1 : 0);
    };
    of_chord.push_back(respells ? plainest(chord.root, by, strangeness(chord, chord.root), on_root) : by);
    chord = transposed(chord, of_chord.back());
  }
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    const auto& governor = labels[i].governor;
    const Interval& with_chord = governor ? of_chord[*governor] : by;  // so that its degree is the same
    Pitch& moved = line.solo.notes[i].pitch;
    moved = transposed(moved, with_chord);
    if (!respells) continue;
    const ReadNote note{labels[i], governor ? &line.harmony.chords[*governor].chord : nullptr, with_chord != by, key};
    moved = spelled_pitch(midi_number(moved), readable_name(moved.name, note));
  }
  for (KeyChange& change : line.solo.keys) change.key = transposed(change.key, by);
  return line;
}

Interval readable_interval(const Interval& by, const std::optional<Key>& key, const Harmony& harmony) {
  const int fifths_moved = fifths_of(transposed(NoteName{}, by));
  if (key) {
    const int signs = key->fifths + fifths_moved;
    if (signs > most_readable_signs) return respelled_by(by, 1);
    return signs < -most_readable_signs ? respelled_by(by, -1) : by;
  }
  const auto distance = [&](int letters) {
    int sum = 0;
    for (const SoundingChord& sounding : harmony.chords)
      sum += std::abs(fifths_of(sounding.chord.root) + fifths_moved - letters * fifths_between_enharmonics);
    return sum;
  };
  const std::array moves{0, 1, -1};
  return respelled_by(by, *std::ranges::min_element(moves, {}, distance));
}

int notes_outside(const Solo& solo, int moved_by, const PitchRange& range) {
  return static_cast<int>(std::ranges::count_if(solo.notes, [&](const Note& note) {
    const int midi = midi_number(note.pitch) + moved_by;
    return !note.grace && (midi < range.lowest || midi > range.highest);
  }));
}

int octaves_into_range(const Solo& solo, int moved_by, const PitchRange& range) {
  const auto outside = [&](int octaves) {
    return notes_outside(solo, moved_by + octaves * semitones_in_octave, range);
  };
  const std::array octaves{0, 1, -1, 2, -2, 3, -3, 4, -4};
  return *std::ranges::min_element(octaves, {}, outside);
}

}  // namespace insideline
