#include "analyzer/spelling.hpp"

#include <array>
#include <cstdlib>
#include <optional>

namespace insideline {
namespace {

constexpr int fifths_in_scale = 7;

/// The name that stands `fifths` above C on the line of fifths: -2 is Bb.
NoteName name_on_line_of_fifths(int fifths) {
  constexpr std::array naturals = {Step::f, Step::c, Step::g, Step::d, Step::a, Step::e, Step::b};
  const int from_f = fifths + 1;
  const int alter = from_f >= 0 ? from_f / fifths_in_scale : -((fifths_in_scale - 1 - from_f) / fifths_in_scale);
  return {naturals.at(static_cast<std::size_t>(from_f - alter * fifths_in_scale)), alter};
}

/// The name of `midi` with the letter of `neighbour` or, if that is its own, the next letter in `steps` direction.
std::optional<NoteName> name_beside(int midi, const Pitch& neighbour, int steps) {
  const int letter = (static_cast<int>(neighbour.name.step) + steps + fifths_in_scale) % fifths_in_scale;
  NoteName name{static_cast<Step>(letter), 0};
  int alter = (midi - pitch_class(name)) % semitones_in_octave;
  if (alter < 0) alter += semitones_in_octave;
  if (alter > semitones_in_octave / 2) alter -= semitones_in_octave;
  if (std::abs(alter) > 1) return std::nullopt;
  name.alter = alter;
  return name;
}

/// The minor third over the tonic's own chord, as a blues has it: Bb over G7 in G.
bool is_blue_third(int midi, const Chord& chord, const Key& key) {
  constexpr int minor_third = 3;
  const int above_root = (midi - pitch_class(chord.root) + semitones_in_octave) % semitones_in_octave;
  const bool is_tonic = !key.minor && fifths_of(chord.root) == key.fifths + tonic_above_major(key);
  return is_tonic && above_root == minor_third && quality(chord) == ChordQuality::dominant;
}

std::optional<NoteName> name_in_chord(int midi, const Harmony& harmony, const Beats& position, const Key& key) {
  const auto index = chord_index_at(harmony, position);
  if (!index) return std::nullopt;
  const Chord& chord = harmony.chords[*index].chord;
  const int wanted = midi % semitones_in_octave;
  auto degree = tone_with(chord, wanted);
  if (!degree && is_blue_third(midi, chord, key)) return note_at(chord.root, {3, -1});
  if (!degree) degree = tension_with(chord, wanted);
  if (!degree) return std::nullopt;
  const NoteName name = note_at(chord.root, *degree);
  if (std::abs(name.alter) > 1) return std::nullopt;  // players read the A of Gbdim7 as an A
  return name;
}

/// True for a note of the key's scale.
bool is_diatonic(const NoteName& name, const Key& key) {
  const int above_lowest = fifths_of(name) - key.fifths + 1;
  return above_lowest >= 0 && above_lowest < fifths_in_scale;
}

/// A note half a step from the note it leads to borrows the letter beside that note's, unless it is the scale's own
/// and the line only passes on through that note: Ab A Bb in E flat.
std::optional<NoteName> name_leading_to(int midi, const Note* next, const Note* after, const NoteName& usual,
                                        const Key& key) {
  if (next == nullptr) return std::nullopt;
  const int way = midi_number(next->pitch) - midi;
  if (std::abs(way) != 1) return std::nullopt;
  const bool passes_on = after != nullptr && midi_number(after->pitch) - midi_number(next->pitch) == way;
  if (passes_on && is_diatonic(usual, key)) return std::nullopt;
  return name_beside(midi, next->pitch, way > 0 ? -1 : 1);
}

}  // namespace

NoteName usual_name(int pitch_class, const Key& key) {
  constexpr int fifths_of_semitone = 7;
  const int flattest = key.minor ? -2 : -4;  // in C major from Ab up to C#, in A minor from Bb up to D#
  const int tonic_line = key.fifths + flattest;
  for (int fifths = tonic_line; fifths < tonic_line + semitones_in_octave; ++fifths) {
    int sounding = fifths * fifths_of_semitone % semitones_in_octave;
    if (sounding < 0) sounding += semitones_in_octave;
    if (sounding == pitch_class) return name_on_line_of_fifths(fifths);
  }
  return {};
}

Solo spelled_by_harmony(Solo solo, const Harmony& harmony) {
  const Interval to_written = -solo.sounding_minus_written;
  const Note* next = nullptr;
  const Note* after = nullptr;
  for (std::size_t i = solo.notes.size(); i-- > 0;) {
    Note& note = solo.notes[i];
    if (!note.spelled) {
      const int midi = midi_number(note.pitch);
      const Key key = key_at(solo, note.onset).value_or(Key{});
      const NoteName usual = usual_name(midi % semitones_in_octave, key);
      auto name = name_in_chord(midi, harmony, note.onset, key);
      if (!name) name = name_leading_to(midi, next, after, usual, key);
      note.pitch = spelled_pitch(midi, name.value_or(usual));
      note.written = transposed(note.pitch, to_written);
      note.spelled = true;
      note.spelled_by_chords = true;
    }
    after = next;
    next = &note;
  }
  return solo;
}

}  // namespace insideline
