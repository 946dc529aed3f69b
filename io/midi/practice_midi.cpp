#include "io/midi/practice_midi.hpp"

#include "analyzer/drills/voicings.hpp"
#include "analyzer/metre.hpp"
#include "io/midi/midi_writer.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace insideline::io {
namespace {

constexpr unsigned percussion = 9;  // General MIDI Level 1, "Percussion Key Map": the tenth channel
constexpr int high_wood_block = 76;
constexpr int low_wood_block = 77;
constexpr unsigned electric_piano = 4;  // General MIDI Level 1, program 5
constexpr unsigned chord_channel = 1;
constexpr unsigned bass_channel = 2;
constexpr unsigned bass_program = 32;  // General MIDI Level 1, program 33: acoustic bass
constexpr unsigned soft = 52;

/// The whole file, still straight: every time through with its count-in, one after another.
struct Rounds {
  Solo line;
  Harmony harmony;
  std::vector<bool> counts_in;  ///< parallel to line.bars
  std::vector<TempoStep> tempos;
};

void add_bar(Rounds& rounds, Bar bar, const Beats& onset, bool counts_in) {
  bar.onset = onset;
  bar.number = static_cast<int>(rounds.line.bars.size()) + 1;
  rounds.line.bars.push_back(bar);
  rounds.counts_in.push_back(counts_in);
}

void add_round(Rounds& rounds, const Solo& solo, const Harmony& harmony, int count_in_bars) {
  const Bar& first = solo.bars.front();
  Beats at = rounds.line.bars.empty() ? first.onset : end_of(rounds.line);
  for (int bar = 0; bar < count_in_bars; ++bar) {
    add_bar(rounds, first, at, true);
    at += first.length;
  }
  const Beats later = at - first.onset;
  for (const Bar& bar : solo.bars) add_bar(rounds, bar, bar.onset + later, false);
  for (Note note : solo.notes) {
    note.onset += later;
    rounds.line.notes.push_back(std::move(note));
  }
  for (SoundingChord sounding : harmony.chords) {
    sounding.onset += later;
    rounds.harmony.chords.push_back(std::move(sounding));
  }
  for (KeyChange change : solo.keys) {
    if (change.onset > first.onset || later > Beats(0)) change.onset += later;
    const bool is_news = rounds.line.keys.empty() || rounds.line.keys.back().key != change.key;
    if (rounds.line.keys.empty()) change.onset = first.onset;
    if (is_news) rounds.line.keys.push_back(change);
  }
}

Rounds all_rounds(const Solo& solo, const Harmony& harmony, const PracticeMidiOptions& options) {
  Rounds rounds;
  rounds.line = solo;
  rounds.line.bars.clear();
  rounds.line.notes.clear();
  rounds.line.keys.clear();
  const std::size_t times = std::max<std::size_t>(1, options.tempos_bpm.size());
  for (std::size_t time = 0; time < times; ++time) {
    const Beats begin = rounds.line.bars.empty() ? solo.bars.front().onset : end_of(rounds.line);
    add_round(rounds, solo, harmony, options.count_in_bars);
    if (time < options.tempos_bpm.size()) rounds.tempos.push_back({begin, options.tempos_bpm[time]});
  }
  return rounds;
}

AccompanyingTrack clicks(const Rounds& rounds, Clicks when) {
  AccompanyingTrack track{when == Clicks::before ? "Count-in" : "Click", percussion, std::nullopt, {}};
  constexpr unsigned accented = 110;
  constexpr unsigned plain = 85;
  for (std::size_t i = 0; i < rounds.line.bars.size(); ++i) {
    if (when == Clicks::before && !rounds.counts_in[i]) continue;
    const Bar& bar = rounds.line.bars[i];
    const Beats beat = felt_beat(bar.meter);
    for (Beats at = bar.onset; at < bar.onset + bar.length; at += beat) {
      const bool is_one = at == bar.onset;
      track.notes.push_back({at, beat / 4, is_one ? high_wood_block : low_wood_block, is_one ? accented : plain});
    }
  }
  return track;
}

/// A stretch of time in which the chords are struck once.
struct Strike {
  Beats onset;
  Beats duration;
};

/// The bars of a chord, each cut to what of it the chord lasts.
std::vector<Strike> bars_of(const SoundingChord& sounding, const Solo& line) {
  std::vector<Strike> parts;
  const Beats end = sounding.onset + sounding.duration;
  for (std::size_t i = bar_index_at(line, sounding.onset); i < line.bars.size() && line.bars[i].onset < end; ++i) {
    const Beats onset = std::max(sounding.onset, line.bars[i].onset);
    parts.push_back({onset, std::min(end, line.bars[i].onset + line.bars[i].length) - onset});
  }
  return parts;
}

/// On the beat and a beat and a half later: the first two attacks of the charleston. Common practice, no source.
std::vector<Strike> comped(const Strike& part) {
  const Beats second = Beats(3, 2);
  const Beats length = Beats(1);
  const Beats short_length = Beats(1, 2);
  std::vector<Strike> strikes{{part.onset, std::min(length, part.duration)}};
  if (part.duration > second) strikes.push_back({part.onset + second, std::min(short_length, part.duration - second)});
  return strikes;
}

void add_voices(AccompanyingTrack& track, const Voicing& voicing, const Strike& strike) {
  for (const int midi : voicing.voices) track.notes.push_back({strike.onset, strike.duration, midi, soft});
}

std::vector<AccompanyingTrack> chords(const Rounds& rounds, ChordSound sound) {
  if (sound == ChordSound::none) return {};
  const std::vector<Voicing> voicings = smooth_voicings(rounds.harmony.chords);
  AccompanyingTrack above{"Chords", chord_channel, electric_piano, {}};
  AccompanyingTrack below{"Bass", bass_channel, bass_program, {}};
  for (std::size_t i = 0; i < voicings.size(); ++i) {
    const SoundingChord& sounding = rounds.harmony.chords[i];
    if (sound == ChordSound::held) add_voices(above, voicings[i], {sounding.onset, sounding.duration});
    for (const Strike& part : bars_of(sounding, rounds.line)) {
      below.notes.push_back({part.onset, part.duration, voicings[i].bass, soft});
      if (sound != ChordSound::comped) continue;
      for (const Strike& strike : comped(part)) add_voices(above, voicings[i], strike);
    }
  }
  return {std::move(above), std::move(below)};
}

template <typename Sounding>
void swing_all(std::vector<Sounding>& all, int hundredths) {
  for (Sounding& sounding : all) {
    const Beats end = swung(sounding.onset + sounding.duration, hundredths);
    sounding.onset = swung(sounding.onset, hundredths);
    sounding.duration = end - sounding.onset;
  }
}

}  // namespace

Beats swung(const Beats& place, int hundredths) {
  const Beats beat = Beats(whole_units(place, Beats(1)));
  const Beats into = place - beat;
  constexpr int parts = 3;
  if (into.denominator() % parts == 0) return place;
  constexpr int even = 100;
  const Beats half = Beats(1, 2);
  const Beats off_beat = Beats(hundredths, hundredths + even);
  if (into <= half) return beat + into * off_beat * Beats(2);
  return beat + off_beat + (into - half) * (Beats(1) - off_beat) * Beats(2);
}

std::string write_practice_midi(const Solo& solo, const Harmony& harmony, const PracticeMidiOptions& options) {
  assert(!solo.bars.empty() && "a practice line has bars");
  Rounds rounds = all_rounds(solo, harmony, options);
  MidiWriteOptions written;
  written.tempos = rounds.tempos;
  written.accompaniment = chords(rounds, options.chords);
  if (options.clicks == Clicks::throughout || options.count_in_bars > 0)
    written.accompaniment.push_back(clicks(rounds, options.clicks));
  if (options.swing_hundredths) {
    swing_all(rounds.line.notes, *options.swing_hundredths);
    for (AccompanyingTrack& track : written.accompaniment)
      if (track.channel != percussion) swing_all(track.notes, *options.swing_hundredths);
  }
  return write_midi(rounds.line, rounds.harmony, written);
}

}  // namespace insideline::io
