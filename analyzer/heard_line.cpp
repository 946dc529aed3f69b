#include "analyzer/heard_line.hpp"

#include "analyzer/metre.hpp"

#include <cassert>
#include <cstdint>

namespace insideline {
namespace {

constexpr int half_bar_weight = 3;  // of metrical_weight: the bar or its half begins here

Beats end_of(const SoundingChord& chord) { return chord.onset + chord.duration; }

/// Where the beats of the bar are counted from: a pickup is the end of a bar that was not played from its beginning.
Beats counted_from(const Bar& bar) {
  return bar.number == 0 ? bar.onset + bar.length - bar_length(bar.meter) : bar.onset;
}

/// Whether `time` is a whole number of `unit`s.
bool is_whole(const Beats& time, const Beats& unit) {
  std::int64_t part = 0;
  std::int64_t whole = 0;
  if (__builtin_mul_overflow(time.numerator(), unit.denominator(), &part) ||
      __builtin_mul_overflow(time.denominator(), unit.numerator(), &whole))
    return remainder_within(time, unit) == Beats{};
  return part % whole == 0;
}

/// Walks along bars, phrases and stretches with the notes, so that nothing is searched for.
class Cursor {
 public:
  Cursor(const Solo& solo, std::span<const Phrase> phrases, std::span<const Stretch> stretches)
      : solo_(solo), phrases_(phrases), stretches_(stretches) {
    if (!solo.bars.empty()) come_to_bar(0);
  }

  void look_up(HeardNote& heard, std::size_t index) {
    const Beats& onset = solo_.notes[index].onset;
    while (bar_ + 1 < solo_.bars.size() && solo_.bars[bar_ + 1].onset <= onset) come_to_bar(bar_ + 1);
    while (phrase_ + 1 < phrases_.size() && phrases_[phrase_].last < index) ++phrase_;
    while (stretch_ + 1 < stretches_.size() && stretches_[stretch_ + 1].onset <= onset) ++stretch_;
    heard.bar = bar_;
    heard.phrase = phrase_;
    const Beats place = onset - bar_line_;
    heard.on_beat = is_whole(place, felt_beat_);
    heard.on_strong_beat = heard.on_beat && metrical_weight(solo_.bars[bar_].meter, whole_units(place, beat_), 1,
                                                            Feel::straight) >= half_bar_weight;
    if (stretches_.empty()) return;
    const Stretch& stretch = stretches_[stretch_];
    if (onset < stretch.onset || onset >= stretch.end) return;
    heard.sounding = stretch_;
    heard.on_change = stretch.follows && onset == stretch.onset;
  }

  /// A rest that parts what stands on either side of it, in the bar that was looked up last.
  [[nodiscard]] bool is_rest(const Note& before, const Note& note) const {
    return note.onset - (before.onset + before.duration) >= felt_beat_;
  }

 private:
  void come_to_bar(std::size_t bar) {
    bar_ = bar;
    bar_line_ = counted_from(solo_.bars[bar]);
    if (bar > 0 && solo_.bars[bar].meter == solo_.bars[bar - 1].meter) return;
    beat_ = beat_length(solo_.bars[bar].meter);
    felt_beat_ = felt_beat(solo_.bars[bar].meter);  // in 6/8 there are two
  }

  const Solo& solo_;
  std::span<const Phrase> phrases_;
  std::span<const Stretch> stretches_;
  std::size_t bar_ = 0;
  Beats bar_line_;
  Beats beat_;
  Beats felt_beat_;
  std::size_t phrase_ = 0;
  std::size_t stretch_ = 0;
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

HeardLine hear(const Solo& solo, const Harmony& harmony, std::span<const NoteLabel> labels,
               std::span<const Phrase> phrases) {
  assert(labels.size() == solo.notes.size() && "one label a note");
  HeardLine line;
  line.stretches = join_stretches(harmony);
  line.stretch_of_chord.resize(harmony.chords.size());
  for (std::size_t s = 0; s < line.stretches.size(); ++s)
    for (std::size_t c = line.stretches[s].first; c <= line.stretches[s].last; ++c) line.stretch_of_chord[c] = s;
  line.notes.reserve(solo.notes.size());
  Cursor cursor(solo, phrases, line.stretches);
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    const Note& note = solo.notes[i];
    if (note.grace) continue;
    HeardNote heard;
    heard.note = i;
    heard.midi = midi_number(note.pitch);
    heard.pitch_class = pitch_class_of(heard.midi);
    heard.duration = to_double(note.duration);
    heard.role = labels[i].role;
    if (labels[i].governor) heard.stretch = line.stretch_of_chord[*labels[i].governor];
    cursor.look_up(heard, i);
    if (!line.notes.empty()) heard.after_rest = cursor.is_rest(solo.notes[line.notes.back().note], note);
    line.notes.push_back(heard);
  }
  return line;
}

}  // namespace insideline
