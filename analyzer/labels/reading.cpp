#include "analyzer/labels/reading.hpp"

#include <algorithm>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int step_size = 2;  // semitones: the reach of a neighbour or an enclosing note

bool steps(const std::optional<Motion>& motion) { return motion && motion->step; }
bool passes(const std::optional<Motion>& motion) { return motion && (motion->step || motion->augmented_second); }
bool leaps(const std::optional<Motion>& motion) { return motion && !motion->step; }
bool same_way(const NoteContext& here) {
  return here.in && here.out && (here.in->semitones > 0) == (here.out->semitones > 0);
}

/// Collects the readings of one note.
class Readings {
 public:
  Readings(std::vector<Reading>& found, const Chain& chain, std::size_t index, Hearing hearing)
      : chain_(chain), index_(index), here_(chain[index]), hearing_(hearing), found_(found) {}

  void collect() {
    if (!here_.chord) return add({.motive = Motive::no_chord});
    if (here_.is_tone) {
      add(chord_tone_in_place());
      return add_on_its_way();
    }
    add_tension();
    if (hearing_ == Hearing::as_heard) {
      add_anticipation();
      add_carried_on();
    }
    add_stepwise_figures();
    add_enclosures();
    add_approaches();
    add_pedal();
    add({.motive = Motive::unexplained});
  }

 private:
  void add(const Reading& reading) { found_.push_back(reading); }

  /// Held across a change, or several, into a chord it does not belong to, it hangs over if it resolves by step.
  [[nodiscard]] Reading chord_tone_in_place() const {
    Reading reading{.motive = Motive::chord_tone};
    if (here_.pickup) reading.placement = Placement::anticipation;
    const bool hangs_over = here_.hangs_into && steps(here_.out) && !here_.same_after && hearing_ == Hearing::as_heard;
    if (hangs_over && chain_[index_ + 1].is_tone)
      reading.placement = here_.out->semitones < 0 ? Placement::suspension : Placement::retardation;
    return reading;
  }

  /// A weak and short chord tone between two steps may only pass through or turn back.
  void add_on_its_way() {
    const bool in_a_run = steps(here_.in) && steps(here_.out) && !here_.same_before && !here_.same_after;
    if (!in_a_run || here_.held || here_.weight > here_.next_weight || here_.pickup) return;
    if (same_way(here_)) add({.motive = Motive::passing});
    if (here_.in->semitones == -here_.out->semitones) add({.motive = Motive::neighbour});
  }

  void add_tension() {
    if (!here_.colour) return;
    const Placement placement = here_.pickup ? Placement::anticipation : Placement::in_place;
    add({.motive = Motive::tension, .placement = placement, .colour = *here_.colour});
  }

  void add_anticipation() {
    if (here_.pickup || !here_.next || here_.to_change * 2 > here_.beat * 5) return;
    if (here_.is_tone_of_next)
      add({.motive = Motive::chord_tone, .against = Against::next, .placement = Placement::anticipation});
    else if (here_.is_tension_of_next && (here_.sounds_into_next || here_.struck_again_on_next))
      add({.motive = Motive::tension, .against = Against::next, .placement = Placement::anticipation});
  }

  /// A breath of less than a beat lets the note before be heard on.
  [[nodiscard]] bool follows_silence() const {
    if (index_ == 0) return true;
    const NoteContext& before = chain_[index_ - 1];
    return here_.onset - before.onset - before.duration >= here_.beat;
  }

  /// A tone of the chord before, struck over the new one: suspended, or simply carried on.
  void add_carried_on() {
    if (follows_silence()) return;
    if (!here_.previous || !here_.is_tone_of_previous || here_.since_change > here_.beat * 2) return;
    const bool rises = here_.same_before && steps(here_.out) && here_.out->semitones > 0;
    add({.motive = Motive::chord_tone,
         .against = Against::previous,
         .placement = rises ? Placement::retardation : Placement::suspension});
  }

  /// Back to the note it left, to the same letter raised or lowered, or to the one before it. A step that does not
  /// reach back so far ends between the two, and where a chord tone stands there, both have closed in on it.
  [[nodiscard]] bool comes_back() const {
    if (!steps(here_.in) || !steps(here_.out) || same_way(here_)) return false;
    const bool falls_short = std::abs(here_.out->semitones) < std::abs(here_.in->semitones);
    if (!falls_short || here_.same_after || !stands(chain_[index_ + 1])) return true;
    return index_ > 1 && chain_[index_ - 2].midi == chain_[index_ + 1].midi;
  }

  void add_stepwise_figures() {
    if (passes(here_.in) && passes(here_.out) && same_way(here_)) add({.motive = Motive::passing});
    if (comes_back()) add({.motive = Motive::neighbour});
    if (steps(here_.in) && leaps(here_.out)) add({.motive = Motive::escape});
  }

  /// Semitones of the note `ahead` places from here above the note at `target` places from here.
  [[nodiscard]] int above_target(std::size_t ahead, std::size_t target) const {
    return chain_[index_ + ahead].midi - chain_[index_ + target].midi;
  }

  [[nodiscard]] bool exists(std::size_t ahead) const { return index_ + ahead < chain_.size(); }

  /// True where notes `first` .. `target` - 1 (counted from here) lie within a step of the
  /// target, on both sides of it, and never on it.
  [[nodiscard]] bool surrounds(std::size_t target) const {
    bool above = false;
    bool below = false;
    for (std::size_t ahead = 0; ahead < target; ++ahead) {
      const int distance = above_target(ahead, target);
      if (distance == 0 || std::abs(distance) > step_size) return false;
      (distance > 0 ? above : below) = true;
    }
    return above && below;
  }

  [[nodiscard]] bool is_foreign(std::size_t ahead) const {
    const NoteContext& other = chain_[index_ + ahead];
    return other.chord && !other.is_tone;
  }

  [[nodiscard]] bool is_foreign_before() const { return !chain_[index_ - 1].is_tone; }

  [[nodiscard]] bool target_just_heard(std::size_t target) const {
    return index_ > 0 && chain_[index_ - 1].midi == chain_[index_ + target].midi;
  }

  /// Adds this note's part in every enclosure that passes through it, from each possible start.
  void add_enclosures() {
    for (std::uint8_t parts = 2; parts <= 3; ++parts) {
      for (std::uint8_t part = 0; part < parts && part <= index_; ++part) {
        const Readings start(found_, chain_, index_ - part, hearing_);
        if (!start.encloses(parts)) continue;
        const bool heard = parts == 2 && start.target_just_heard(parts);
        add({.motive = heard ? Motive::double_neighbour : Motive::enclosure, .part = part, .parts = parts});
      }
    }
    if (exists(2) && surrounds(2) && !is_foreign(1)) add({.motive = Motive::opening_enclosure});
    if (index_ == 0 || is_foreign_before()) return;
    const Readings start(found_, chain_, index_ - 1, hearing_);
    if (start.exists(2) && start.surrounds(2)) add({.motive = Motive::closing_enclosure});
  }

  [[nodiscard]] bool encloses(std::size_t parts) const {
    if (!exists(parts) || !surrounds(parts)) return false;
    for (std::size_t ahead = 0; ahead < parts; ++ahead)
      if (!is_foreign(ahead)) return false;
    return true;
  }

  void add_approaches() {
    if (!steps(here_.out)) return;
    add({.motive = Motive::approach});
    const bool strong = here_.weight > here_.next_weight || here_.longer_than_next;
    if (!steps(here_.in) || strong) add({.motive = Motive::appoggiatura});
    for (std::uint8_t part = 0; part < 2 && part <= index_; ++part) {
      const Readings start(found_, chain_, index_ - part, hearing_);
      if (start.approaches_by_two_half_steps()) add({.motive = Motive::double_approach, .part = part, .parts = 2});
    }
  }

  [[nodiscard]] bool approaches_by_two_half_steps() const {
    if (!exists(2) || !is_foreign(0) || !is_foreign(1)) return false;
    const int first = chain_[index_ + 1].midi - here_.midi;
    return std::abs(first) == 1 && chain_[index_ + 2].midi - chain_[index_ + 1].midi == first;
  }

  void add_pedal() {
    if ((here_.same_before && here_.same_after) || here_.from_below) add({.motive = Motive::pedal});
  }

  const Chain& chain_;
  std::size_t index_;
  const NoteContext& here_;
  Hearing hearing_;
  std::vector<Reading>& found_;
};

bool same_figure(const Reading& a, const Reading& b) { return a.motive == b.motive && a.parts == b.parts; }

bool is_ornament(const Reading& reading) { return needs_target(reading) || reading.motive == Motive::escape; }

bool is_last_part(const Reading& reading) { return reading.alone || reading.part + 1 == reading.parts; }

}  // namespace

std::optional<std::size_t> governor(const Reading& reading, const NoteContext& context) {
  if (reading.motive == Motive::no_chord) return std::nullopt;
  switch (reading.against) {
    case Against::sounding: return context.chord;
    case Against::next: return context.next;
    case Against::previous: return context.previous;
  }
  return std::nullopt;
}

void add_possible_readings(std::vector<Reading>& found, const Chain& chain, std::size_t index, Hearing hearing) {
  Readings(found, chain, index, hearing).collect();
}

bool may_follow(const Reading& from, const Reading& to, bool same_pitch) {
  if (!is_last_part(from)) return same_figure(from, to) && to.part == from.part + 1;
  if (to.part > 0 && !to.alone) return false;
  const bool ornaments_of_one_pitch = same_pitch && is_ornament(from) && is_ornament(to);
  return !ornaments_of_one_pitch || from == to;
}

std::optional<std::size_t> notes_to_target(const Reading& reading) {
  switch (reading.motive) {
    case Motive::passing:
    case Motive::neighbour:
    case Motive::approach:
    case Motive::closing_enclosure:
    case Motive::appoggiatura: return 1;
    case Motive::opening_enclosure: return 2;
    case Motive::double_neighbour:
    case Motive::enclosure:
    case Motive::double_approach: return static_cast<std::size_t>(reading.parts - reading.part);
    case Motive::chord_tone:
    case Motive::tension:
    case Motive::escape:
    case Motive::pedal:
    case Motive::unexplained:
    case Motive::no_chord: return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace insideline
