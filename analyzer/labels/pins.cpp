#include "analyzer/labels/pins.hpp"

#include "analyzer/labels/chord_colours.hpp"
#include "analyzer/labels/degree_spelling.hpp"
#include "analyzer/labels/pinned_readings.hpp"

#include <algorithm>
#include <cassert>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace insideline {
namespace {

bool wants_figure(const Pin& pin) {
  return pin.role == Role::non_chord_tone ||
         (pin.figure && !is_member_figure(*pin.figure) && *pin.figure != Figure::unexplained);
}

bool wants_outside(const Pin& pin) { return pin.role == Role::outside || pin.figure == Figure::unexplained; }

ReadingsUnderPin readings_under(const PinnedPlace& place, const Pin& pin) {
  if (!place.here().chord) return {{}, "no chord sounds there"};
  if (wants_outside(pin)) return {{Reading{.motive = Motive::unexplained}}, {}};
  return wants_figure(pin) ? figure_readings(place, pin) : member_readings(place, pin);
}

/// The readings of a chain, note by note.
using Choices = std::vector<std::vector<Reading>>;

Lattice lattice_from(const Choices& choices) {
  Lattice lattice;
  for (const std::vector<Reading>& readings : choices) {
    lattice.starts.push_back(lattice.readings.size());
    lattice.readings.insert(lattice.readings.end(), readings.begin(), readings.end());
  }
  lattice.starts.push_back(lattice.readings.size());
  return lattice;
}

/// The first note that no path reaches; none where one leads through.
std::optional<std::size_t> first_cut_off(const Lattice& lattice, const Chain& chain) {
  std::vector<bool> before;
  for (std::size_t i = 0; i < lattice.size(); ++i) {
    std::vector<bool> here(lattice.count(i));
    for (std::size_t k = 0; k < here.size(); ++k) {
      if (score_in(lattice, chain, i, k) == impossible_score) continue;
      here[k] = i == 0;
      for (std::size_t from = 0; from < before.size() && !here[k]; ++from)
        here[k] = before[from] && may_follow(lattice.at(i - 1)[from], lattice.at(i)[k], chain[i].same_before);
    }
    if (std::ranges::find(here, true) == here.end()) return i;
    before = std::move(here);
  }
  return std::nullopt;
}

/// Puts the readings of a chain together under its pins; a pin that cannot hold is left out.
class UnderPins {
 public:
  UnderPins(const Chain& chain, const Solo& solo, const Harmony& harmony, Hearing hearing, const PinnedNotes& pins)
      : chain_(chain), solo_(solo), harmony_(harmony), pins_(pins), own_(lattice_of(chain, hearing)) {
    for (std::size_t i = 0; i < chain.size(); ++i) choices_.emplace_back(own_.at(i).begin(), own_.at(i).end());
    pinned_.resize(chain.size());
  }

  PinnedLattice result() {
    for (std::size_t i = 0; i < chain_.size(); ++i)
      if (const Pin* const pin = pins_.of(chain_[i].note)) set(i, *pin);
    for (Lattice lattice = lattice_from(choices_);; lattice = lattice_from(choices_)) {
      const auto cut_off = first_cut_off(lattice, chain_);
      if (!cut_off) return {std::move(lattice), std::move(pinned_), std::move(faults_)};
      if (!lone_parts_tried_)
        add_lone_parts_everywhere();
      else
        give_up_before(*cut_off);
    }
  }

 private:
  void set(std::size_t i, const Pin& pin) {
    ReadingsUnderPin found = readings_under({solo_, harmony_, chain_, i, own_.at(i)}, pin);
    if (found.readings.empty()) return fail(i, found.why_none);
    choices_[i] = std::move(found.readings);
    pinned_[i] = true;
  }

  void fail(std::size_t i, std::string why) {
    faults_.push_back({pins_.index_of(*pins_.of(chain_[i].note)), std::move(why)});
    choices_[i].assign(own_.at(i).begin(), own_.at(i).end());
    pinned_[i] = false;
  }

  /// One of several notes of a figure may be told without the others.
  void add_lone_parts_everywhere() {
    lone_parts_tried_ = true;
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      if (!pinned_[i]) continue;
      std::set<Motive> motives;
      for (const Reading& reading : choices_[i]) motives.insert(label_motive(reading.motive));
      for (const Motive motive : motives) add_lone_parts(choices_[i], chain_, i, motive);
    }
  }

  /// The last pin up to `note` does not go with what is before it.
  void give_up_before(std::size_t note) {
    std::size_t i = note;
    while (!pinned_[i] && i > 0) --i;
    assert(pinned_[i] && "without pins some path leads through every chain");
    fail(i, i + 1 == chain_.size() && wants_figure(*pins_.of(chain_[i].note))
                ? "it leads to a note, and none follows before the rest"
                : "it does not go with what is said of the note before");
  }

  const Chain& chain_;
  const Solo& solo_;
  const Harmony& harmony_;
  const PinnedNotes& pins_;
  Lattice own_;
  Choices choices_;
  std::vector<bool> pinned_;
  std::vector<PinFault> faults_;
  bool lone_parts_tried_ = false;
};

/// The chords that a grace note may belong to under its pin, the likeliest first.
std::vector<std::size_t> chords_of_grace_note(const NoteLabel& label, const Pin& pin, const Harmony& harmony) {
  std::vector<std::optional<std::size_t>> chords = {label.governor, label.chord};
  const auto next = label.chord ? chord_after(harmony, *label.chord) : label.governor;
  const auto before = label.chord ? chord_before(harmony, *label.chord) : std::nullopt;
  const bool early = pin.placement == Placement::anticipation;
  const bool late = pin.placement == Placement::suspension || pin.placement == Placement::retardation;
  if (pin.against == Against::sounding) chords = {label.chord};
  if (pin.against == Against::next || early) chords = {next};
  if (pin.against == Against::previous || late) chords = {before};
  if (!pin.against && !pin.placement) chords.insert(chords.end(), {next, before});
  std::vector<std::size_t> known;
  for (const auto& chord : chords)
    if (chord) known.push_back(*chord);
  return known;
}

}  // namespace

PinnedNotes::PinnedNotes(const Solo& solo, std::span<const Pin> pins) : pins_(pins) {
  for (const Pin& pin : pins)
    if (const auto note = pinned_note(solo, pin)) by_note_.emplace(*note, &pin);
}

const Pin* PinnedNotes::of(std::size_t note) const {
  if (by_note_.empty()) return nullptr;
  const auto found = by_note_.find(note);
  return found == by_note_.end() ? nullptr : found->second;
}

bool PinnedNotes::any_in(const Chain& chain) const {
  if (by_note_.empty() || chain.empty()) return false;
  const auto first = by_note_.lower_bound(chain.front().note);
  return first != by_note_.end() && first->first <= chain.back().note;
}

PinnedLattice pinned_lattice(const Chain& chain, const Solo& solo, const Harmony& harmony, Hearing hearing,
                             const PinnedNotes& pins) {
  return UnderPins(chain, solo, harmony, hearing, pins).result();
}

std::string label_grace_note(NoteLabel& label, const Pin& pin, const Note& note, const Harmony& harmony) {
  if (!label.governor) return "no chord sounds there";
  if (wants_outside(pin) || wants_figure(pin)) {
    label.role = wants_outside(pin) ? Role::outside : Role::non_chord_tone;
    label.figure = wants_outside(pin) ? Figure::unexplained : pin.figure.value_or(Figure::approach_tone);
    return {};
  }
  for (const std::size_t number : chords_of_grace_note(label, pin, harmony)) {
    const Chord& chord = harmony.chords[number].chord;
    const bool tone = contains(ChordColours(chord).tones, pitch_class(note.pitch.name));
    if (pin.role && (*pin.role == Role::chord_tone) != tone) continue;
    const bool names_place = pin.degree || pin.figure;
    const auto degree =
        names_place ? degree_by_pin(pin, chord, note) : tension_over(chord, pitch_class(note.pitch.name));
    if (!degree) continue;
    label.governor = number;
    label.placement = pin.placement.value_or(label.placement);
    label.role = tone ? Role::chord_tone : Role::tension;
    label.degree = degree;
    return {};
  }
  return fmt::format("{} is nothing of the kind over the chords there", to_string(note.pitch.name));
}

}  // namespace insideline
