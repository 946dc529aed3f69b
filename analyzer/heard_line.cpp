#include "analyzer/heard_line.hpp"

#include "analyzer/labels/tick_scale.hpp"
#include "analyzer/metre.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

namespace insideline {
namespace {

constexpr int half_bar_weight = 3;  // of metrical_weight: the bar or its half begins here

Beats end_of(const SoundingChord& chord) { return chord.onset + chord.duration; }

constexpr Ticks never = std::numeric_limits<Ticks>::max();

/// Walks along bars, phrases and stretches with the notes, so that nothing is searched for.
class Cursor {
 public:
  Cursor(const Solo& solo, std::span<const Phrase> phrases, std::span<const Stretch> stretches, const TickScale& scale)
      : solo_(solo),
        phrases_(phrases),
        stretches_(stretches),
        scale_(scale),
        bar_in_ticks_(solo.bars.empty() ? Bar{} : solo.bars.front(), scale) {
    come_to_bar(0);
    come_to_stretch(0);
  }

  void look_up(HeardNote& heard, std::size_t index) {
    const Ticks onset = scale_.ticks(solo_.notes[index].onset);
    while (next_bar_ <= onset) come_to_bar(bar_ + 1);
    while (phrase_ + 1 < phrases_.size() && phrases_[phrase_].last < index) ++phrase_;
    while (next_stretch_ <= onset) come_to_stretch(stretch_ + 1);
    heard.onset = onset;
    heard.bar = bar_;
    heard.phrase = phrase_;
    const Ticks place = onset - bar_in_ticks_.first_beat;
    heard.on_beat = place % bar_in_ticks_.felt == 0;  // in 6/8 there are two
    heard.on_strong_beat = heard.on_beat && metrical_weight(bar_in_ticks_.meter, place, bar_in_ticks_.beat,
                                                            Feel::straight) >= half_bar_weight;
    heard.after_rest = note_end_ != never && onset - note_end_ >= bar_in_ticks_.felt;
    note_end_ = onset + scale_.ticks(solo_.notes[index].duration);
    if (onset < stretch_onset_ || onset >= stretch_end_) return;
    heard.sounding = stretch_;
    heard.on_change = stretches_[stretch_].follows && onset == stretch_onset_;
  }

 private:
  void come_to_bar(std::size_t bar) {
    bar_ = bar;
    if (bar > 0) bar_in_ticks_ = BarInTicks(solo_.bars[bar], scale_);
    next_bar_ = bar + 1 < solo_.bars.size() ? scale_.ticks(solo_.bars[bar + 1].onset) : never;
  }

  void come_to_stretch(std::size_t stretch) {
    stretch_ = stretch;
    if (stretch < stretches_.size()) {
      stretch_onset_ = scale_.ticks(stretches_[stretch].onset);
      stretch_end_ = scale_.ticks(stretches_[stretch].end);
    }
    next_stretch_ = stretch + 1 < stretches_.size() ? scale_.ticks(stretches_[stretch + 1].onset) : never;
  }

  const Solo& solo_;
  std::span<const Phrase> phrases_;
  std::span<const Stretch> stretches_;
  const TickScale& scale_;
  std::size_t bar_ = 0;
  BarInTicks bar_in_ticks_;
  Ticks next_bar_ = never;
  std::size_t phrase_ = 0;
  std::size_t stretch_ = 0;
  Ticks stretch_onset_ = never;
  Ticks stretch_end_ = never;
  Ticks next_stretch_ = never;
  Ticks note_end_ = never;  ///< of the note that was looked up last; none yet
};

}  // namespace

PitchClassSet tone_set(const Chord& chord) {
  unsigned set = 0;
  const int root = pitch_class(chord.root);
  for (const Degree& tone : chord.tones) set |= 1U << ((root + pitch_class_above_root(tone)) % pitch_classes);
  return static_cast<PitchClassSet>(set);
}

std::vector<Stretch> join_stretches(const Harmony& harmony) {
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < harmony.chords.size(); ++i) {
    const SoundingChord& sounding = harmony.chords[i];
    if (i > 0 && harmony.chords[i - 1].stretch == sounding.stretch) {
      stretches.back().last = i;
      stretches.back().end = end_of(sounding);
      continue;
    }
    const bool follows = i > 0 && stretches.back().end == sounding.onset;
    stretches.push_back({.first = i,
                         .last = i,
                         .onset = sounding.onset,
                         .end = end_of(sounding),
                         .tones = tone_set(sounding.chord),
                         .follows = follows});
  }
  return stretches;
}

std::vector<std::size_t> first_alike(const Harmony& harmony) {
  std::vector<std::size_t> different;
  std::vector<std::size_t> alike;
  alike.reserve(harmony.chords.size());
  for (std::size_t i = 0; i < harmony.chords.size(); ++i) {
    const Chord& chord = harmony.chords[i].chord;
    const auto known = std::ranges::find_if(different, [&](std::size_t other) {
      return same_chord(harmony.chords[other].chord, chord) && harmony.chords[other].chord.avoid == chord.avoid;
    });
    alike.push_back(known == different.end() ? i : *known);
    if (known == different.end()) different.push_back(i);
  }
  return alike;
}

HeardLine hear(const Solo& solo, const Harmony& harmony, std::span<const NoteLabel> labels,
               std::span<const Phrase> phrases) {
  assert(labels.size() == solo.notes.size() && "one label a note");
  HeardLine line;
  line.stretches = join_stretches(harmony);
  line.stretch_of_chord.resize(harmony.chords.size());
  for (std::size_t s = 0; s < line.stretches.size(); ++s)
    for (std::size_t c = line.stretches[s].first; c <= line.stretches[s].last; ++c) line.stretch_of_chord[c] = s;
  line.notes.reserve(solo.notes.size());
  const TickScale scale(solo, harmony, {});
  Cursor cursor(solo, phrases, line.stretches, scale);
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    const Note& note = solo.notes[i];
    if (note.grace) continue;
    HeardNote& heard = line.notes.emplace_back();
    heard.note = i;
    heard.midi = midi_number(note.pitch);
    heard.pitch_class = pitch_class_of(heard.midi);
    heard.duration = to_double(note.duration);
    heard.role = labels[i].role;
    if (labels[i].governor) heard.stretch = line.stretch_of_chord[*labels[i].governor];
    cursor.look_up(heard, i);
  }
  return line;
}

}  // namespace insideline
