#include "analyzer/phrases.hpp"

#include "analyzer/labels/tick_scale.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <span>

namespace insideline {
namespace {

constexpr int long_against_before = 4;  // a long note lasts four times the note that led to it ...
constexpr int long_in_beats = 3;        // ... and at least three beats
constexpr std::size_t group_of_bars = 4;
constexpr std::size_t longest_in_bars = 8;  // a phrase of more bars is looked through for a breath

/// The place between a note and the next one that is struck.
struct Breath {
  std::size_t next = 0;  ///< the first note after it, or the grace notes before that note
  Ticks rest = 0;
  Ticks since_onset = 0;       ///< of the note before: how long the line has not moved
  bool comes_to_rest = false;  ///< the note before is long, and a tone of its chord to the end; another note follows
  std::size_t bar = 0;         ///< of the note after it
};

/// A long note that is foreign to the chord it ends in still wants to go on.
bool belongs_at_its_end(const Note& note, const Harmony& harmony) {
  const Beats end = end_of(note);
  const auto after = std::ranges::lower_bound(harmony.chords, end, {}, &SoundingChord::onset);
  if (after == harmony.chords.begin()) return true;
  const SoundingChord& last = *std::prev(after);
  if (last.onset + last.duration < end) return true;
  return tone_with(last.chord, pitch_class(note.pitch.name)).has_value();
}

/// A note with its length, and the length of the one that led to it.
struct NoteBefore {
  const Note* note = nullptr;
  Ticks onset = 0;
  Ticks duration = 0;
  std::optional<Ticks> led_in;
};

std::vector<Breath> find_breaths(const Solo& solo, const Harmony& harmony, const TickScale& scale,
                                 std::span<const BarInTicks> bars) {
  std::vector<Breath> breaths;
  breaths.reserve(solo.notes.size());
  NoteBefore before;
  std::size_t graces = 0;
  std::size_t bar = 0;
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    const Note& note = solo.notes[i];
    if (note.grace) {
      ++graces;
      continue;
    }
    const Ticks onset = scale.ticks(note.onset);
    while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= note.onset) ++bar;
    std::optional<Ticks> led_in;
    if (before.note != nullptr) {
      const Ticks since_onset = onset - before.onset;
      const Ticks rest = since_onset - before.duration;
      const bool is_long = before.led_in && before.duration >= bars[bar].felt * long_in_beats &&
                           before.duration >= *before.led_in * long_against_before;
      breaths.push_back(
          {.next = i - graces,
           .rest = rest,
           .since_onset = since_onset,
           .comes_to_rest = is_long && before.note->pitch != note.pitch && belongs_at_its_end(*before.note, harmony),
           .bar = bar});
      if (rest < bars[bar].felt) led_in = before.duration;
    }
    before = {.note = &note, .onset = onset, .duration = scale.ticks(note.duration), .led_in = led_in};
    graces = 0;
  }
  return breaths;
}

/// A rest of three quarters of the gap is one by itself, a shorter one where the line had slowed down before it.
bool is_breath(const Breath& breath, Ticks felt_beat, const Beats& gap) {
  __extension__ using Wide = __int128;  // holds any product of two times
  if (Wide{breath.rest} * gap.denominator() * 4 >= Wide{felt_beat} * gap.numerator() * 3) return true;
  return breath.rest * 2 >= felt_beat && breath.since_onset * 4 >= felt_beat * 5;
}

/// True where a four-bar group begins after a breath, with the phrase already four bars old.
bool opens_a_group(const Solo& solo, const Breath& breath, std::size_t first_bar) {
  if (breath.rest <= 0 || breath.bar + 1 < first_bar + group_of_bars) return false;
  return (solo.bars[breath.bar].number - 1) % static_cast<int>(group_of_bars) == 0;
}

}  // namespace

std::vector<Phrase> find_phrases(const Solo& solo, const Harmony& harmony, const Settings& settings) {
  if (solo.notes.empty()) return {};
  const TickScale scale(solo, harmony, settings);
  std::vector<BarInTicks> bars;
  bars.reserve(solo.bars.size());
  for (const Bar& bar : solo.bars) bars.emplace_back(bar, scale);
  const std::vector<Breath> breaths = find_breaths(solo, harmony, scale, bars);
  std::vector<Phrase> phrases;
  Phrase phrase;
  std::size_t first_bar = bar_index_at(solo, solo.notes.front().onset);
  std::optional<std::size_t> group;  // the longest breath so far that opens a four-bar group
  const auto close_before = [&](std::size_t at) {
    phrase.last = breaths[at].next - 1;
    phrases.push_back(phrase);
    phrase.first = breaths[at].next;
    first_bar = breaths[at].bar;
    group.reset();
  };
  for (std::size_t i = 0; i < breaths.size(); ++i) {
    if (group && breaths[i].bar >= first_bar + longest_in_bars) {
      i = *group;
      close_before(i);
      continue;
    }
    if (is_breath(breaths[i], bars[breaths[i].bar].felt, settings.phrase_gap) || breaths[i].comes_to_rest) {
      close_before(i);
    } else if (opens_a_group(solo, breaths[i], first_bar) && (!group || breaths[i].rest > breaths[*group].rest)) {
      group = i;
    }
  }
  phrase.last = solo.notes.size() - 1;
  phrases.push_back(phrase);
  return phrases;
}

}  // namespace insideline
