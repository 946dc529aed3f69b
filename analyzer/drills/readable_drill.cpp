#include "analyzer/drills/readable_drill.hpp"

#include "analyzer/reading_pitch.hpp"

namespace insideline {
namespace {

constexpr int fifths_a_letter = 12;  // E, four sharps, is F flat, eight flats

/// By how many letters what sounds in `key` is renamed, so that moved by `up` it is plain.
int letters_renamed(const Key& key, const Interval& up) {
  return up == Interval{} ? 0 : readable_interval(up, key, {}).steps - up.steps;
}

Interval renamed_at(const Solo& solo, const Beats& place, const Interval& up) {
  const auto key = key_at(solo, place);
  return {key ? letters_renamed(*key, up) : 0, 0};
}

}  // namespace

Key read_key(const Key& sounding, const Interval& up) {
  const int letters = letters_renamed(sounding, up);
  return transposed(Key{sounding.fifths - letters * fifths_a_letter, sounding.minor, sounding.mode}, up);
}

Drill readable_drill(Drill drill, const Interval& up) {
  Solo& solo = drill.solo;
  for (OpenChoice& choice : drill.open_choices)
    choice.other = transposed(choice.other, renamed_at(solo, solo.notes[choice.note].onset, up));
  for (Note& note : solo.notes) note.pitch = transposed(note.pitch, renamed_at(solo, note.onset, up));
  for (SoundingChord& sounding : drill.harmony.chords)
    sounding.chord = transposed(sounding.chord, renamed_at(solo, sounding.onset, up));
  for (KeyChange& change : solo.keys) change.key.fifths -= letters_renamed(change.key, up) * fifths_a_letter;
  return drill;
}

}  // namespace insideline
