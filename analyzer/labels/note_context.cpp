#include "analyzer/labels/note_context.hpp"

#include "analyzer/metre.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int octave = 12;
constexpr int whole_step = 2;
constexpr int sixth = 8;
constexpr int bass_register = 48;  // below C3 a foreign tone is heard as a bass; common practice, no source

using PitchClasses = std::uint16_t;  // bit n is set for pitch class n

PitchClasses classes_of(int root, std::span<const Degree> degrees) {
  unsigned set = 0;
  for (const Degree& degree : degrees)
    set |= 1U << static_cast<unsigned>((root + pitch_class_above_root(degree)) % octave);
  return static_cast<PitchClasses>(set);
}

bool contains(PitchClasses set, int pitch_class) { return ((set >> static_cast<unsigned>(pitch_class)) & 1U) != 0; }

// Over a dominant whose symbol does not name them, and over a minor seventh chord.
constexpr std::array<Degree, 4> altered_colours = {{{9, -1}, {9, 1}, {11, 1}, {13, -1}}};
constexpr std::array<Degree, 1> disputed_colours = {{{13, 0}}};

/// A blue third on its way up to the third, a blue fifth on its way to the fifth or the eleventh.
bool is_blue(int above_root, const std::optional<Motion>& out) {
  constexpr int minor_third = 3;
  constexpr int flat_fifth = 6;
  if (!out) return false;
  return (above_root == minor_third && out->semitones == 1) ||
         (above_root == flat_fifth && (out->semitones == 1 || out->semitones == -1));
}

/// A chord as the labelling asks about it. Altered colours are welcome over any dominant,
/// the thirteenth over a minor seventh chord is disputed (Nettles & Graf against common practice).
struct ChordColours {
  explicit ChordColours(const Chord& chord)
      : root(pitch_class(chord.root)),
        tones(classes_of(root, chord.tones)),
        tensions(classes_of(root, chord.tensions)) {
    const ChordQuality family = quality(chord);
    dominant = family == ChordQuality::dominant;
    if (dominant) altered = classes_of(root, altered_colours);
    if (family == ChordQuality::minor && seventh_of(chord) == Degree{7, -1})
      disputed = classes_of(root, disputed_colours);
  }

  [[nodiscard]] std::optional<Colour> colour(int pitch_class) const {
    if (contains(tones, pitch_class)) return std::nullopt;
    if (contains(disputed, pitch_class)) return Colour::disputed;
    if (contains(tensions, pitch_class)) return Colour::listed;
    if (contains(altered, pitch_class)) return Colour::altered;
    return std::nullopt;
  }

  /// Semitones above the root, 0..11.
  [[nodiscard]] int above(int pitch_class) const { return (pitch_class - root + octave) % octave; }

  int root = 0;
  bool dominant = false;
  PitchClasses tones = 0;
  PitchClasses tensions = 0;
  PitchClasses altered = 0;
  PitchClasses disputed = 0;
};

/// Walks along the harmony with the notes, so that no chord is searched for twice.
class ChordCursor {
 public:
  explicit ChordCursor(const Harmony& harmony) : harmony_(harmony) {
    find_stretches();
    find_colours();
  }

  void look_up(NoteContext& context, const Note& note, const Note* after) {
    advance_to(note.onset);
    if (harmony_.chords.empty()) return;
    context.pickup = note.onset < harmony_.chords.front().onset;
    if (context.pickup) {
      context.chord = 0;
      context.to_change = (harmony_.chords.front().onset - note.onset) / context.beat;
    } else {
      look_up_sounding(context, note, after);
    }
    if (context.chord) look_up_colours(context);
  }

 private:
  void look_up_sounding(NoteContext& context, const Note& note, const Note* after) const {
    const SoundingChord& sounding = harmony_.chords[index_];
    if (note.onset >= sounding.onset + sounding.duration) return;
    context.chord = index_;
    context.next = next_[index_];
    context.previous = previous_[index_];
    context.to_change = (stretch_ends_[index_] - note.onset) / context.beat;
    context.since_change = (note.onset - stretch_onsets_[index_]) / context.beat;
    if (!context.next) return;
    const Beats change = stretch_ends_[index_];
    context.sounds_into_next = end_of(note) > change;
    context.struck_again_on_next = after != nullptr && context.same_after && after->onset >= change;
  }

  void look_up_colours(NoteContext& context) const {
    const ChordColours& here = colours_[*context.chord];
    context.is_tone = contains(here.tones, context.pitch_class);
    context.colour = here.colour(context.pitch_class);
    context.blue = here.dominant && is_blue(here.above(context.pitch_class), context.out);
    if (context.previous)
      context.is_tone_of_previous = contains(colours_[*context.previous].tones, context.pitch_class);
    if (!context.next) return;
    context.is_tone_of_next = contains(colours_[*context.next].tones, context.pitch_class);
    context.is_tension_of_next = contains(colours_[*context.next].tensions, context.pitch_class);
  }

  /// A chord that is only written again keeps its colours.
  void find_colours() {
    colours_.reserve(harmony_.chords.size());
    for (const SoundingChord& sounding : harmony_.chords) {
      const bool goes_on = !colours_.empty() && harmony_.chords[colours_.size() - 1].stretch == sounding.stretch;
      if (goes_on)
        colours_.push_back(colours_.back());
      else
        colours_.emplace_back(sounding.chord);
    }
  }

  void find_stretches() {
    const std::size_t count = harmony_.chords.size();
    stretch_onsets_.reserve(count);
    previous_.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool goes_on = i > 0 && harmony_.chords[i].stretch == harmony_.chords[i - 1].stretch;
      stretch_onsets_.push_back(goes_on ? stretch_onsets_.back() : harmony_.chords[i].onset);
      const bool touches = i > 0 && end_of(i - 1) == harmony_.chords[i].onset;
      if (goes_on)
        previous_.push_back(previous_.back());
      else
        previous_.push_back(touches ? std::optional(i - 1) : std::nullopt);
    }
    stretch_ends_.resize(count);
    next_.resize(count);
    for (std::size_t i = count; i-- > 0;) {
      const bool goes_on = i + 1 < count && harmony_.chords[i].stretch == harmony_.chords[i + 1].stretch;
      stretch_ends_[i] = goes_on ? stretch_ends_[i + 1] : end_of(i);
      const bool touches = i + 1 < count && end_of(i) == harmony_.chords[i + 1].onset;
      if (goes_on)
        next_[i] = next_[i + 1];
      else if (touches)
        next_[i] = i + 1;
    }
  }

  [[nodiscard]] Beats end_of(std::size_t index) const {
    return harmony_.chords[index].onset + harmony_.chords[index].duration;
  }
  [[nodiscard]] static Beats end_of(const Note& note) { return insideline::end_of(note); }

  void advance_to(const Beats& position) {
    while (index_ + 1 < harmony_.chords.size() && harmony_.chords[index_ + 1].onset <= position) ++index_;
  }

  const Harmony& harmony_;
  std::size_t index_ = 0;
  std::vector<ChordColours> colours_;
  std::vector<Beats> stretch_onsets_;
  std::vector<Beats> stretch_ends_;
  std::vector<std::optional<std::size_t>> next_;
  std::vector<std::optional<std::size_t>> previous_;
};

bool is_third_up(const std::optional<Motion>& motion) {
  return motion && (motion->semitones == whole_step + 1 || motion->semitones == whole_step + 2);
}

Motion motion_between(const Note& from, const Note& to, int semitones) {
  const int size = std::abs(semitones);
  const bool augmented_second = size == whole_step + 1 && from.spelled && to.spelled &&
                                std::abs(interval_between(from.pitch, to.pitch).steps) == 1;
  return {semitones, size >= 1 && size <= whole_step, augmented_second};
}

/// Fills in everything that depends on the neighbours inside the chain.
void look_at_neighbours(Chain& chain, const Solo& solo) {
  const std::size_t count = chain.size();
  for (std::size_t i = 0; i < count; ++i) {
    NoteContext& here = chain[i];
    const Note& note = solo.notes[here.note];
    const Note* before = i > 0 ? &solo.notes[chain[i - 1].note] : nullptr;
    const Note* after = i + 1 < count ? &solo.notes[chain[i + 1].note] : nullptr;
    here.same_before = before != nullptr && chain[i - 1].midi == here.midi;
    here.same_after = after != nullptr && chain[i + 1].midi == here.midi;
    if (here.same_before) {
      here.in = chain[i - 1].in;
    } else if (before != nullptr) {
      here.in = motion_between(*before, note, here.midi - chain[i - 1].midi);
    }
    here.rest_after = after == nullptr || (after->onset - end_of(note)) * 2 >= here.beat;
    here.longer_than_next = after != nullptr && note.duration > after->duration;
    here.longer_than_before = before != nullptr && note.duration > before->duration;
  }
  for (std::size_t i = count; i-- > 0;) {
    NoteContext& here = chain[i];
    if (i + 1 == count) continue;
    if (here.same_after) {
      here.out = chain[i + 1].out;
      here.next_weight = chain[i + 1].next_weight;
    } else {
      here.out = motion_between(solo.notes[here.note], solo.notes[chain[i + 1].note], chain[i + 1].midi - here.midi);
      here.next_weight = chain[i + 1].weight;
    }
  }
  for (NoteContext& here : chain) {
    const bool under_before = !here.in || here.in->semitones <= -sixth;
    const bool under_after = !here.out || here.out->semitones >= sixth;
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

/// Fills in what the note is by itself; `beat` is the felt beat of its bar.
void look_at_note(NoteContext& here, const Solo& solo, std::size_t index, const Bar& bar, const Beats& beat,
                  const Settings& settings) {
  const Note& note = solo.notes[index];
  here.note = index;
  here.midi = midi_number(note.pitch);
  here.pitch_class = here.midi % octave;
  here.beat = beat;
  here.held = note.duration >= settings.held_tension * beat;
  here.weight = metrical_weight(bar, note.onset, settings.feel);
  here.on_beat = is_on_beat(bar, note.onset);
}

}  // namespace

void for_each_chain(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases, const Settings& settings,
                    const std::function<void(const Chain&)>& use) {
  ChordCursor cursor(harmony);
  Chain chain;
  const auto finish = [&] {
    if (chain.empty()) return;
    look_at_neighbours(chain, solo);
    for (std::size_t i = 0; i < chain.size(); ++i)
      cursor.look_up(chain[i], solo.notes[chain[i].note],
                     i + 1 < chain.size() ? &solo.notes[chain[i + 1].note] : nullptr);
    look_at_stacks_and_pushes(chain);
    use(chain);
    chain.clear();
  };
  std::size_t bar = 0;
  for (const Phrase& phrase : phrases) {
    std::optional<Beats> sounded_until;
    for (std::size_t i = phrase.first; i <= phrase.last; ++i) {
      const Note& note = solo.notes[i];
      if (note.grace) continue;
      while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= note.onset) ++bar;
      const Beats beat = felt_beat(solo.bars[bar].meter);
      if (sounded_until && note.onset - *sounded_until >= settings.phrase_gap * beat) finish();
      look_at_note(chain.emplace_back(), solo, i, solo.bars[bar], beat, settings);
      sounded_until = end_of(note);
    }
    finish();
  }
}

}  // namespace insideline
