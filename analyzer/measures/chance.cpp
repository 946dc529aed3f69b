#include "analyzer/measures/chance.hpp"

#include <algorithm>
#include <cstdint>

namespace insideline {
namespace {

constexpr PitchClassSet no_chord_here = 1U << pitch_classes;  // a bit that no pitch class has

/// A note as the turning sees it.
struct PlacedNote {
  std::size_t bar = 0;   ///< of the ring, unturned
  std::size_t slot = 0;  ///< the last slot at or before it in its bar
  int pitch_class = 0;
};

/// Every offset at which some bar of the ring changes its chord, in order; 0 is the first.
std::vector<Beats> slots_of(const ChangesRing& ring) {
  std::vector<Beats> slots = {Beats{}};
  for (const auto& bar : ring.bars)
    for (const BarSpan& span : bar)
      if (std::ranges::find(slots, span.offset) == slots.end()) slots.push_back(span.offset);
  std::ranges::sort(slots);
  return slots;
}

/// The tones that sound in each slot, bar after bar.
std::vector<PitchClassSet> tones_by_slot(const ChangesRing& ring, std::span<const Beats> slots) {
  std::vector<PitchClassSet> tones;
  tones.reserve(ring.bars.size() * slots.size());
  for (const auto& bar : ring.bars) {
    std::size_t span = 0;
    for (const Beats& slot : slots) {
      while (span + 1 < bar.size() && bar[span + 1].offset <= slot) ++span;
      tones.push_back(bar.empty() ? no_chord_here : bar[span].tones.value_or(no_chord_here));
    }
  }
  return tones;
}

std::vector<PlacedNote> placed_notes(const HeardLine& line, const Solo& solo, const ChangesRing& ring,
                                     std::span<const Beats> slots) {
  std::vector<PlacedNote> placed;
  placed.reserve(line.notes.size());
  for (const HeardNote& note : line.notes) {
    const auto bar = bar_under(ring, note.bar, 0);
    if (!bar) continue;
    const Beats offset = solo.notes[note.note].onset - solo.bars[note.bar].onset;
    const auto after = std::ranges::upper_bound(slots, offset);
    const auto slot = static_cast<std::size_t>(std::max<std::ptrdiff_t>(after - slots.begin() - 1, 0));
    placed.push_back({.bar = *bar, .slot = slot, .pitch_class = note.pitch_class});
  }
  return placed;
}

}  // namespace

Chance against_shifts(const Share& real, std::span<const Share> shifted) {
  Chance chance;
  chance.actual = ratio(real).value_or(0.0);
  double sum = 0.0;
  int as_high = 0;
  for (const Share& share : shifted) {
    chance.values.push_back(ratio(share).value_or(0.0));
    sum += chance.values.back();
    const auto here = static_cast<std::int64_t>(share.count) * real.of;
    if (here >= static_cast<std::int64_t>(real.count) * share.of) ++as_high;
  }
  chance.shifts = static_cast<int>(shifted.size());
  if (shifted.empty() || real.of == 0) return chance;
  chance.mean = sum / chance.shifts;
  chance.p_value = static_cast<double>(as_high + 1) / (chance.shifts + 1);
  return chance;
}

Chance chance_by_turning(const HeardLine& line, const Solo& solo, const ChangesRing& ring) {
  const std::vector<Beats> slots = slots_of(ring);
  const std::vector<PitchClassSet> tones = tones_by_slot(ring, slots);
  const std::vector<PlacedNote> placed = placed_notes(line, solo, ring, slots);
  const auto turned_by = [&](std::size_t turn) {
    Share share;
    for (const PlacedNote& note : placed) {
      const std::size_t turned = note.bar + turn;
      const std::size_t bar = turned < ring.bars.size() ? turned : turned - ring.bars.size();
      const PitchClassSet here = tones[bar * slots.size() + note.slot];
      share.of += here == no_chord_here ? 0 : 1;
      share.count += contains(here, note.pitch_class) ? 1 : 0;
    }
    return share;
  };
  std::vector<Share> shifted;
  for (std::size_t turn = 1; turn < ring.period; ++turn) shifted.push_back(turned_by(turn));
  return against_shifts(turned_by(0), shifted);
}

Chance chance_by_transposing(const HeardLine& line) {
  const auto moved_by = [&](int semitones) {
    Share share;
    for (const HeardNote& note : line.notes) {
      if (!note.sounding) continue;
      ++share.of;
      const PitchClassSet tones = line.stretches[*note.sounding].tones;
      share.count += contains(tones, (note.pitch_class + semitones) % pitch_classes) ? 1 : 0;
    }
    return share;
  };
  std::vector<Share> shifted;
  for (int semitones = 1; semitones < pitch_classes; ++semitones) {
    const bool changes_something = std::ranges::any_of(
        line.stretches, [&](const Stretch& stretch) { return moved_up(stretch.tones, semitones) != stretch.tones; });
    if (changes_something) shifted.push_back(moved_by(semitones));
  }
  return against_shifts(moved_by(0), shifted);
}

}  // namespace insideline
