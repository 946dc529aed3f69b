#include "analyzer/phrases.hpp"

#include "analyzer/metre.hpp"

#include <algorithm>
#include <iterator>
#include <optional>

namespace insideline {
namespace {

constexpr int long_against_before = 4;  // a long note lasts four times the note that led to it ...
constexpr int long_in_beats = 3;        // ... and at least three beats
constexpr std::size_t group_of_bars = 4;
constexpr std::size_t longest_in_bars = 8;  // a phrase of more bars is looked through for a breath

/// The place between a note and the next one that is struck.
struct Breath {
  std::size_t next = 0;  ///< the first note after it, or the grace notes before that note
  Beats rest;
  Beats since_onset;           ///< of the note before: how long the line has not moved
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

/// What is compared with notes and rests, worked out once a meter.
class Lengths {
 public:
  explicit Lengths(const Beats& gap) : gap_(gap) { work_out(); }

  void come_to(const Bar& bar) {
    if (bar.meter == meter_) return;
    meter_ = bar.meter;
    work_out();
  }

  Beats beat;
  Beats long_note;
  Beats breath;  ///< a rest of three quarters of the gap is one by itself ...
  Beats short_breath;
  Beats slow;  ///< ... a shorter one where the line had slowed down before it

 private:
  void work_out() {
    beat = felt_beat(meter_);
    long_note = beat * long_in_beats;
    breath = gap_ * beat * Beats(3, 4);
    short_breath = beat * Beats(1, 2);
    slow = beat * Beats(5, 4);
  }

  Beats gap_;
  Meter meter_;
};

std::vector<Breath> find_breaths(const Solo& solo, const Harmony& harmony) {
  std::vector<Breath> breaths;
  breaths.reserve(solo.notes.size());
  Lengths lengths(Beats{1});
  const Note* before = nullptr;
  std::optional<Beats> led_in;  // the length of the note that led to `before`
  std::size_t graces = 0;
  std::size_t bar = 0;
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    const Note& note = solo.notes[i];
    if (note.grace) {
      ++graces;
      continue;
    }
    while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= note.onset) ++bar;
    if (before != nullptr) {
      lengths.come_to(solo.bars[bar]);
      const bool is_long =
          led_in && before->duration >= lengths.long_note && before->duration >= *led_in * long_against_before;
      breaths.push_back(
          {.next = i - graces,
           .rest = note.onset - end_of(*before),
           .since_onset = note.onset - before->onset,
           .comes_to_rest = is_long && before->pitch != note.pitch && belongs_at_its_end(*before, harmony),
           .bar = bar});
      led_in = breaths.back().rest < lengths.beat ? std::optional(before->duration) : std::nullopt;
    }
    before = &note;
    graces = 0;
  }
  return breaths;
}

bool is_breath(const Breath& breath, const Lengths& lengths) {
  if (breath.rest >= lengths.breath) return true;
  return breath.rest >= lengths.short_breath && breath.since_onset >= lengths.slow;
}

/// True where a four-bar group begins after a breath, with the phrase already four bars old.
bool opens_a_group(const Solo& solo, const Breath& breath, std::size_t first_bar) {
  if (breath.rest <= Beats{} || breath.bar + 1 < first_bar + group_of_bars) return false;
  return (solo.bars[breath.bar].number - 1) % static_cast<int>(group_of_bars) == 0;
}

}  // namespace

std::vector<Phrase> find_phrases(const Solo& solo, const Harmony& harmony, const Settings& settings) {
  if (solo.notes.empty()) return {};
  const std::vector<Breath> breaths = find_breaths(solo, harmony);
  std::vector<Phrase> phrases;
  Phrase phrase;
  std::size_t first_bar = bar_index_at(solo, solo.notes.front().onset);
  Lengths lengths(settings.phrase_gap);
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
    lengths.come_to(solo.bars[breaths[i].bar]);
    if (is_breath(breaths[i], lengths) || breaths[i].comes_to_rest) {
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
