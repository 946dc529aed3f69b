#include "analyzer/labels/note_context.hpp"

#include "analyzer/labels/chord_colours.hpp"
#include "analyzer/labels/side_slips.hpp"
#include "analyzer/labels/tick_scale.hpp"
#include "analyzer/metre.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <stdexcept>

namespace insideline {
namespace {

constexpr int octave = 12;
constexpr int whole_step = 2;
constexpr int minor_sixth = 8;
constexpr int bass_register = 48;  // below C3 a foreign tone is heard as a bass; common practice, no source

/// A blue third on its way up to the third, a blue fifth on its way to the fifth or the eleventh.
bool is_blue(int above_root, const std::optional<Motion>& out) {
  constexpr int minor_third = 3;
  constexpr int flat_fifth = 6;
  if (!out) return false;
  return (above_root == minor_third && out->semitones == 1) ||
         (above_root == flat_fifth && (out->semitones == 1 || out->semitones == -1));
}

/// Walks along the harmony with the notes, so that no chord is searched for twice.
class ChordCursor {
 public:
  ChordCursor(const Solo& solo, const Harmony& harmony, const TickScale& scale) : harmony_(harmony) {
    for (const SoundingChord& sounding : harmony.chords) {
      onsets_.push_back(scale.ticks(sounding.onset));
      ends_.push_back(onsets_.back() + scale.ticks(sounding.duration));
    }
    find_stretches();
    find_colours();
    const bool has_bar_one = !solo.bars.empty() && !harmony.chords.empty();
    if (!has_bar_one) return;
    const auto bar_one = std::ranges::find_if(solo.bars, [](const Bar& bar) { return bar.onset >= Beats{}; });
    if (bar_one != solo.bars.end()) longest_pickup_ = scale.ticks(bar_length(bar_one->meter));
  }

  void look_up(NoteContext& context, const NoteContext* after) {
    if (harmony_.chords.empty()) return;
    while (index_ + 1 < onsets_.size() && onsets_[index_ + 1] <= context.onset) ++index_;
    if (context.onset < onsets_.front())
      look_up_before_first(context);
    else
      look_up_sounding(context, after);
    if (context.chord) look_up_colours(context);
  }

 private:
  /// A pickup leads into bar 1 and its chord, and is at most a bar long; any other note before the first chord has
  /// none.
  void look_up_before_first(NoteContext& context) const {
    const Ticks ahead = onsets_.front() - context.onset;
    context.pickup = context.onset < 0 && onsets_.front() < longest_pickup_ && ahead <= longest_pickup_;
    if (!context.pickup) return;
    context.chord = 0;
    context.to_change = ahead;
  }

  void look_up_sounding(NoteContext& context, const NoteContext* after) const {
    if (context.onset >= ends_[index_]) return;
    context.chord = index_;
    context.next = next_[index_];
    context.previous = previous_[index_];
    const Ticks change = stretch_ends_[index_];
    context.to_change = change - context.onset;
    context.since_change = context.onset - stretch_onsets_[index_];
    if (!context.next) return;
    const Ticks end = context.onset + context.duration;
    context.sounds_into_next = end > change;
    context.sounds_mostly_over_next = end - change >= 2 * context.to_change;
    const bool half_a_beat_ahead = context.to_change * 2 <= context.beat;
    context.pushes = half_a_beat_ahead && (end - change) * 2 >= context.beat;
    context.struck_again_on_next = after != nullptr && context.same_after && after->onset >= change;
    for (std::optional<std::size_t> under = context.next; under && onsets_[*under] < end; under = next_[*under])
      if (!contains(colours_[*under].tones, context.pitch_class)) context.hangs_into = under;
  }

  void look_up_colours(NoteContext& context) const {
    const ChordColours& here = colours_[*context.chord];
    context.tones = here.tones;
    context.is_tone = contains(here.tones, context.pitch_class);
    context.colour = here.colour(context.pitch_class);
    context.above_root = here.above(context.pitch_class);
    context.blue = here.dominant && is_blue(context.above_root, context.out);
    if (context.previous)
      context.is_tone_of_previous = contains(colours_[*context.previous].tones, context.pitch_class);
    if (!context.next) return;
    context.is_tone_of_next = contains(colours_[*context.next].tones, context.pitch_class);
    context.is_root_of_next = colours_[*context.next].root == context.pitch_class;
    context.is_tension_of_next = contains(colours_[*context.next].tensions, context.pitch_class);
  }

  [[nodiscard]] bool goes_on(std::size_t index) const {
    return index > 0 && harmony_.chords[index].stretch == harmony_.chords[index - 1].stretch;
  }

  void find_colours() {
    colours_.reserve(harmony_.chords.size());
    for (const std::size_t alike : first_alike(harmony_)) {
      if (alike < colours_.size())
        colours_.push_back(ChordColours(colours_[alike]));
      else
        colours_.emplace_back(harmony_.chords[alike].chord);
    }
  }

  void find_stretches() {
    const std::size_t count = onsets_.size();
    stretch_onsets_.reserve(count);
    previous_.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool touches = i > 0 && ends_[i - 1] == onsets_[i];
      stretch_onsets_.push_back(goes_on(i) ? stretch_onsets_.back() : onsets_[i]);
      previous_.push_back(goes_on(i) ? previous_.back() : touches ? std::optional(i - 1) : std::nullopt);
    }
    stretch_ends_.resize(count);
    next_.resize(count);
    for (std::size_t i = count; i-- > 0;) {
      const bool last_of_stretch = i + 1 == count || !goes_on(i + 1);
      stretch_ends_[i] = last_of_stretch ? ends_[i] : stretch_ends_[i + 1];
      if (!last_of_stretch)
        next_[i] = next_[i + 1];
      else if (i + 1 < count && ends_[i] == onsets_[i + 1])
        next_[i] = i + 1;
    }
  }

  const Harmony& harmony_;
  std::size_t index_ = 0;
  Ticks longest_pickup_ = 0;
  std::vector<ChordColours> colours_;
  std::vector<Ticks> onsets_;
  std::vector<Ticks> ends_;
  std::vector<Ticks> stretch_onsets_;
  std::vector<Ticks> stretch_ends_;
  std::vector<std::optional<std::size_t>> next_;
  std::vector<std::optional<std::size_t>> previous_;
};

bool is_third_up(const std::optional<Motion>& motion) {
  return motion && (motion->semitones == whole_step + 1 || motion->semitones == whole_step + 2);
}

bool is_spelled_by_source(const Note& note) { return note.spelled && !note.spelled_by_chords; }

/// Told from the written names, which are the source's own however the line is moved to be read.
Motion motion_between(const Note& from, const Note& to, int semitones) {
  const int size = std::abs(semitones);
  const bool augmented_second = size == whole_step + 1 && is_spelled_by_source(from) && is_spelled_by_source(to) &&
                                std::abs(interval_between(from.written, to.written).steps) == 1;
  return {semitones, size >= 1 && size <= whole_step, augmented_second};
}

bool heard_before(const Chain& chain, std::size_t i) {
  constexpr std::size_t nearest = 2;
  constexpr std::size_t farthest = 4;
  for (std::size_t back = nearest; back <= farthest && back <= i; ++back)
    if (chain[i - back].midi == chain[i].midi) return true;
  return false;
}

bool comes_often(const Chain& chain, std::size_t i) {
  constexpr std::size_t around = 8;
  constexpr int often = 3;
  int times = 0;
  const std::size_t end = std::min(i + around + 1, chain.size());
  for (std::size_t k = i - std::min(i, around); k < end && times < often; ++k)
    if (chain[k].midi == chain[i].midi) ++times;
  return times >= often;
}

/// Motions of a repeated note are those of the first of its row in and of the last one out.
void look_at_motions(Chain& chain, const Solo& solo) {
  for (std::size_t i = 0; i < chain.size(); ++i) {
    NoteContext& here = chain[i];
    if (i == 0) continue;
    NoteContext& before = chain[i - 1];
    here.same_before = before.midi == here.midi;
    before.same_after = here.same_before;
    here.in = here.same_before
                  ? before.in
                  : motion_between(solo.notes[before.note], solo.notes[here.note], here.midi - before.midi);
    if (!here.same_before) before.out = here.in;
  }
  for (std::size_t i = chain.size(); i-- > 1;) {
    NoteContext& before = chain[i - 1];
    if (before.same_after) before.out = chain[i].out;
    before.next_weight = before.same_after ? chain[i].next_weight : chain[i].weight;
  }
}

/// Fills in everything that depends on the neighbours inside the chain.
void look_at_neighbours(Chain& chain, const Solo& solo) {
  look_at_motions(chain, solo);
  for (std::size_t i = 0; i < chain.size(); ++i) {
    NoteContext& here = chain[i];
    const bool last = i + 1 == chain.size();
    const Ticks rest = last ? here.beat : chain[i + 1].onset - here.onset - here.duration;
    here.rest_after = rest * 2 >= here.beat;
    here.length = here.rest_after ? here.duration : chain[i + 1].onset - here.onset;
    here.two_beats = here.length >= here.beat * 2;
    here.brief = here.length * 2 < here.beat;
    if (i == 0 || chain[i - 1].rest_after) here.phrase_start = true;
    here.longer_than_before = i > 0 && here.length > chain[i - 1].length;
    if (i > 0) chain[i - 1].longer_than_next = chain[i - 1].length > here.length;
    const bool under_before = !here.in || here.in->semitones <= -minor_sixth;
    const bool under_after = !here.out || here.out->semitones >= minor_sixth;
    here.from_below = here.midi < bass_register || (under_before && under_after && (here.in || here.out));
  }
}

/// A pushed note carries the weight of the downbeat it anticipates.
void look_at_stacks_and_pushes(Chain& chain) {
  constexpr int downbeat = 4;
  for (std::size_t i = 1; i < chain.size(); ++i) {
    NoteContext& before = chain[i - 1];
    NoteContext& here = chain[i];
    here.stacked = before.is_tone && before.next == here.next && is_third_up(here.in);
    here.crowns = here.stacked && is_third_up(before.in);
    if (here.sounds_into_next && !here.on_beat) before.next_weight = downbeat;
  }
}

/// Only a note that may be a colour is asked whether it comes again.
void look_at_returns(Chain& chain) {
  for (std::size_t i = 0; i < chain.size(); ++i) {
    if (chain[i].is_tone || !chain[i].chord) continue;
    chain[i].returns = heard_before(chain, i);
    chain[i].riff = comes_often(chain, i);
  }
}

constexpr std::size_t usual_notes = 32;

enum class PhrasePlace : std::uint8_t { first, inside };

/// Hands the notes to chains, cut where the line stops.
class ChainBuilder {
 public:
  ChainBuilder(const Solo& solo, const Harmony& harmony, const Settings& settings,
               const std::function<void(const Chain&)>& use)
      : solo_(solo),
        settings_(settings),
        use_(use),
        scale_(solo, harmony, settings),
        cursor_(solo, harmony, scale_),
        bar_in_ticks_(solo.bars.empty() ? Bar{} : solo.bars.front(), scale_) {}

  void add(std::size_t index, PhrasePlace place) {
    const Note& note = solo_.notes[index];
    while (bar_ + 1 < solo_.bars.size() && solo_.bars[bar_ + 1].onset <= note.onset)
      bar_in_ticks_ = BarInTicks(solo_.bars[++bar_], scale_);
    const Ticks onset = scale_.ticks(note.onset);
    if (!chain_.empty() && stops_before(onset, midi_number(note.pitch))) finish();
    if (place == PhrasePlace::first && !chain_.empty()) chain_.back().phrase_end = true;
    if (chain_.capacity() == 0) chain_.reserve(usual_notes);
    NoteContext& here = chain_.emplace_back();
    look_at_note(here, index, onset);
    here.phrase_start = place == PhrasePlace::first;
  }

  void finish() {
    if (chain_.empty()) return;
    chain_.back().phrase_end = true;
    look_at_neighbours(chain_, solo_);
    for (std::size_t i = 0; i < chain_.size(); ++i)
      cursor_.look_up(chain_[i], i + 1 < chain_.size() ? &chain_[i + 1] : nullptr);
    look_at_stacks_and_pushes(chain_);
    mark_side_slips(chain_);
    look_at_returns(chain_);
    use_(chain_);
    chain_.clear();
  }

 private:
  /// A rest of the gap stops the line, unless the same note is struck again within two beats. A phrase end without such
  /// a rest does not: a line that steps on or repeats its note is heard on.
  [[nodiscard]] bool stops_before(Ticks onset, int midi) const {
    const NoteContext& before = chain_.back();
    const Ticks rest = onset - before.onset - before.duration;
    const Beats gap = settings_.phrase_gap;
    if (rest * gap.denominator() < bar_in_ticks_.felt * gap.numerator()) return false;
    return midi != before.midi || rest >= bar_in_ticks_.felt * 2;
  }

  void look_at_note(NoteContext& here, std::size_t index, Ticks onset) const {
    const Note& note = solo_.notes[index];
    here.note = index;
    here.midi = midi_number(note.pitch);
    here.pitch_class = here.midi % octave;
    here.beat = bar_in_ticks_.felt;
    here.onset = onset;
    here.duration = scale_.ticks(note.duration);
    const Beats held = settings_.held_tension;
    here.held = here.duration * held.denominator() >= here.beat * held.numerator();
    const Ticks place = here.onset - bar_in_ticks_.first_beat;
    here.weight = metrical_weight(bar_in_ticks_.meter, place, bar_in_ticks_.beat, settings_.feel);
    here.on_beat = place % bar_in_ticks_.beat == 0;
  }

  const Solo& solo_;
  const Settings& settings_;
  const std::function<void(const Chain&)>& use_;
  TickScale scale_;
  ChordCursor cursor_;
  BarInTicks bar_in_ticks_;
  std::size_t bar_ = 0;
  Chain chain_;
};

}  // namespace

void for_each_chain(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases, const Settings& settings,
                    const std::function<void(const Chain&)>& use) {
  ChainBuilder builder(solo, harmony, settings, use);
  for (const Phrase& phrase : phrases) {
    PhrasePlace place = PhrasePlace::first;
    for (std::size_t i = phrase.first; i <= phrase.last; ++i) {
      if (solo.notes[i].grace) continue;
      builder.add(i, place);
      place = PhrasePlace::inside;
    }
  }
  builder.finish();
}

}  // namespace insideline
