#include "analyzer/reading_pitch.hpp"

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
    Interval of_note = governor ? of_chord[*governor] : by;  // with its chord, so that its degree is the same
    Pitch& moved = line.solo.notes[i].pitch;
    // The third of C sharp seventh stays an E sharp; of a chord that was respelled no note needs to be one.
    const bool only_doubles = of_note == by;
    const auto strange = [&](const NoteName& name) {
      return only_doubles && std::abs(name.alter) < 2 ? 0 : strangeness(name);
    };
    if (respells && is_told_by_pitch(labels[i])) of_note = plainest(moved.name, of_note, strange(moved.name), strange);
    moved = transposed(moved, of_note);
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
