#include "io/midi/practice_midi.hpp"

#include "analyzer/metre.hpp"
#include "io/midi/midi_writer.hpp"

#include <algorithm>
#include <cassert>
#include <utility>
#include <vector>

namespace insideline::io {
namespace {

constexpr unsigned percussion = 9;  // General MIDI Level 1, "Percussion Key Map": the tenth channel
constexpr int high_wood_block = 76;
constexpr int low_wood_block = 77;
constexpr int octave = 12;

/// Everything one bar later, behind an empty bar.
Solo after_count_in(Solo solo) {
  const Bar first = solo.bars.front();
  for (Bar& bar : solo.bars) {
    bar.onset += first.length;
    ++bar.number;
  }
  for (Note& note : solo.notes) note.onset += first.length;
  for (KeyChange& change : solo.keys)
    if (change.onset > first.onset) change.onset += first.length;
  solo.bars.insert(solo.bars.begin(), first);
  return solo;
}

AccompanyingTrack clicks(const Bar& bar) {
  AccompanyingTrack track{"Count-in", percussion, std::nullopt, {}};
  const Beats beat = felt_beat(bar.meter);
  constexpr unsigned accented = 110;
  constexpr unsigned plain = 85;
  for (Beats at = bar.onset; at < bar.onset + bar.length; at += beat) {
    const bool is_one = at == bar.onset;
    track.notes.push_back({at, beat / 4, is_one ? high_wood_block : low_wood_block, is_one ? accented : plain});
  }
  return track;
}

AccompanyingTrack chords(const Harmony& harmony) {
  constexpr unsigned channel = 1;
  constexpr unsigned electric_piano = 4;  // General MIDI Level 1, program 5
  constexpr unsigned soft = 52;
  AccompanyingTrack track{"Chords", channel, electric_piano, {}};
  for (const SoundingChord& sounding : harmony.chords)
    for (const int midi : sounded_chord(sounding.chord))
      track.notes.push_back({sounding.onset, sounding.duration, midi, soft});
  return track;
}

}  // namespace

std::vector<int> sounded_chord(const Chord& chord) {
  constexpr int lowest_bass = 36;
  constexpr int lowest_tone = 52;
  const int bass = pitch_class(chord.bass.value_or(chord.root));
  std::vector<int> midi;
  for (const Degree& tone : chord.tones) {
    const int sounding = (pitch_class(chord.root) + pitch_class_above_root(tone)) % octave;
    if (sounding == bass) continue;
    const int above = (sounding - lowest_tone % octave + octave) % octave;
    midi.push_back(lowest_tone + above);
  }
  std::ranges::sort(midi);
  midi.insert(midi.begin(), lowest_bass + bass);
  return midi;
}

std::string write_practice_midi(const Solo& solo, const Harmony& harmony) {
  assert(!solo.bars.empty() && "a practice line has bars");
  const Beats later = solo.bars.front().length;
  const Solo line = after_count_in(solo);
  Harmony under = harmony;
  for (SoundingChord& sounding : under.chords) sounding.onset += later;
  MidiWriteOptions options;
  options.accompaniment = {chords(under), clicks(line.bars.front())};
  return write_midi(line, under, options);
}

}  // namespace insideline::io
