#include "analyzer/spelling.hpp"

#include <array>
#include <cstdlib>
#include <optional>

namespace insideline {
namespace {

constexpr int semitones_in_octave = 12;
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

std::optional<NoteName> name_in_chord(int midi, const Harmony& harmony, const Beats& position) {
  const auto index = chord_index_at(harmony, position);
  if (!index) return std::nullopt;
  const Chord& chord = harmony.chords[*index].chord;
  const int wanted = midi % semitones_in_octave;
  auto degree = tone_with(chord, wanted);
  if (!degree) degree = tension_with(chord, wanted);
  if (!degree) return std::nullopt;
  return note_at(chord.root, *degree);
}

/// True for a note of the key's scale.
bool is_diatonic(const NoteName& name, const Key& key) {
  const int above_lowest = fifths_of(name) - key.fifths + 1;
  return above_lowest >= 0 && above_lowest < fifths_in_scale;
}

/// A foreign note half a step from the note it leads to borrows the letter beside that note's.
std::optional<NoteName> name_leading_to(int midi, const Note* next) {
  if (next == nullptr) return std::nullopt;
  const int way = midi_number(next->pitch) - midi;
  if (std::abs(way) != 1) return std::nullopt;
  return name_beside(midi, next->pitch, way > 0 ? -1 : 1);
}

}  // namespace

NoteName usual_name(int pitch_class, const Key& key) {
  constexpr int first_fifth = -4;  // in C: from Ab up to C#
  constexpr int fifths_of_semitone = 7;
  const int tonic_line = key.fifths + first_fifth;
  for (int fifths = tonic_line; fifths < tonic_line + semitones_in_octave; ++fifths) {
    int sounding = fifths * fifths_of_semitone % semitones_in_octave;
    if (sounding < 0) sounding += semitones_in_octave;
    if (sounding == pitch_class) return name_on_line_of_fifths(fifths);
  }
  return {};
}

Solo spelled_by_harmony(Solo solo, const Harmony& harmony) {
  const Interval to_written{-solo.sounding_minus_written.steps, -solo.sounding_minus_written.semitones};
  const Note* next = nullptr;
  for (std::size_t i = solo.notes.size(); i-- > 0;) {
    Note& note = solo.notes[i];
    if (!note.spelled) {
      const int midi = midi_number(note.pitch);
      const Key key = key_at(solo, note.onset).value_or(Key{});
      const NoteName usual = usual_name(midi % semitones_in_octave, key);
      auto name = name_in_chord(midi, harmony, note.onset);
      if (!name && !is_diatonic(usual, key)) name = name_leading_to(midi, next);
      note.pitch = spelled_pitch(midi, name.value_or(usual));
      note.written = transposed(note.pitch, to_written);
    }
    next = &note;
  }
  return solo;
}

}  // namespace insideline
