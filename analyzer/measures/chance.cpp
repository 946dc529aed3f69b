#include "analyzer/measures/chance.hpp"

#include "analyzer/measures/ring_matches.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <numeric>

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

/// The tones that sound in each slot of one period, bar after bar.
std::vector<PitchClassSet> tones_by_slot(const ChangesRing& ring, std::span<const Beats> slots) {
  std::vector<PitchClassSet> tones;
  tones.reserve(ring.period * slots.size());
  for (const auto& bar : std::span(ring.bars).first(std::min(ring.period, ring.bars.size()))) {
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
    placed.push_back({.bar = *bar % ring.period, .slot = slot, .pitch_class = note.pitch_class});
  }
  return placed;
}

/// The line over one period of the changes.
struct Turning {
  std::size_t bars = 1;  ///< of the period
  std::size_t slots = 1;
  std::vector<PitchClassSet> tones;  ///< by bar, then by slot
  std::vector<PlacedNote> notes;

  [[nodiscard]] PitchClassSet at(std::size_t bar, std::size_t slot) const { return tones[bar * slots + slot]; }
};

/// Bar by bar and turn by turn: the notes of a bar that start in one slot meet one chord at each turn.
std::vector<Share> counted_turn_by_turn(const Turning& turning) {
  std::vector<PitchCounts> counts(turning.bars * turning.slots);
  for (const PlacedNote& note : turning.notes)
    ++counts[note.bar * turning.slots + note.slot][static_cast<std::size_t>(note.pitch_class)];
  std::vector<Share> shares(turning.bars);
  for (std::size_t place = 0; place < counts.size(); ++place) {
    const int notes = std::reduce(counts[place].begin(), counts[place].end());
    if (notes == 0) continue;
    const PitchHits hits(counts[place]);
    const std::size_t slot = place % turning.slots;
    auto share = shares.begin();
    const auto add = [&](std::size_t bar) {
      const PitchClassSet here = turning.at(bar, slot);
      share->of += here == no_chord_here ? 0 : notes;
      share->count += here == no_chord_here ? 0 : hits.of(here);
      ++share;
    };
    for (std::size_t bar = place / turning.slots; bar < turning.bars; ++bar) add(bar);
    for (std::size_t bar = 0; bar < place / turning.slots; ++bar) add(bar);
  }
  return shares;
}

using Ring = std::vector<std::uint32_t>;

/// In which bars `counts(tones)` holds in the slot: 1, else 0.
template <typename Counts>
Ring where(const Turning& turning, std::size_t slot, const Counts& counts) {
  Ring ring(turning.bars);
  for (std::size_t bar = 0; bar < turning.bars; ++bar) ring[bar] = counts(turning.at(bar, slot)) ? 1 : 0;
  return ring;
}

/// All turns at once: the notes of one pitch class in one slot are a ring of counts over the bars, the bars whose chord
/// has that tone there are another, and at each turn the sum of their products is the number of notes that fit.
std::vector<Share> counted_all_at_once(const Turning& turning) {
  const std::size_t kinds = turning.slots * pitch_classes;
  std::vector<Ring> notes(kinds);
  std::vector<Ring> in_slot(turning.slots);
  for (const PlacedNote& note : turning.notes) {
    Ring& ring = notes[note.slot * pitch_classes + static_cast<std::size_t>(note.pitch_class)];
    ring.resize(turning.bars);
    ++ring[note.bar];
    in_slot[note.slot].resize(turning.bars);
    ++in_slot[note.slot][note.bar];
  }
  RingMatches fitting(turning.bars);
  RingMatches sounding(turning.bars);
  for (std::size_t slot = 0; slot < turning.slots; ++slot) {
    if (in_slot[slot].empty()) continue;
    sounding.add(in_slot[slot], where(turning, slot, [](PitchClassSet here) { return here != no_chord_here; }));
    for (int pitch_class = 0; pitch_class < pitch_classes; ++pitch_class) {
      const Ring& ring = notes[slot * pitch_classes + static_cast<std::size_t>(pitch_class)];
      if (ring.empty()) continue;
      fitting.add(ring, where(turning, slot, [&](PitchClassSet here) { return contains(here, pitch_class); }));
    }
  }
  const Ring counts = fitting.sums();
  const Ring of = sounding.sums();
  std::vector<Share> shares(turning.bars);
  for (std::size_t turn = 0; turn < turning.bars; ++turn)
    shares[turn] = {.count = static_cast<int>(counts[turn]), .of = static_cast<int>(of[turn])};
  return shares;
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
  constexpr std::size_t many = std::size_t{1}
                               << 20U;  // above so many pairs of a note and a turn, all at once is faster
  const std::vector<Beats> slots = slots_of(ring);
  const Turning turning{.bars = ring.period,
                        .slots = slots.size(),
                        .tones = tones_by_slot(ring, slots),
                        .notes = placed_notes(line, solo, ring, slots)};
  const bool is_long = turning.notes.size() * turning.bars > many && turning.bars <= longest_matched_ring;
  const std::vector<Share> shares = is_long ? counted_all_at_once(turning) : counted_turn_by_turn(turning);
  return against_shifts(shares.front(), std::span(shares).subspan(1));
}

Chance chance_by_transposing(const HeardLine& line) {
  std::array<Share, pitch_classes> moved{};  // by semitones
  int notes = 0;
  for (const HeardNote& note : line.notes) {
    if (!note.sounding) continue;
    ++notes;
    for (unsigned tones = line.stretches[*note.sounding].tones; tones != 0; tones &= tones - 1)
      ++moved[static_cast<std::size_t>(pitch_class_of(std::countr_zero(tones) - note.pitch_class))].count;
  }
  for (Share& share : moved) share.of = notes;
  std::vector<Share> shifted;
  for (int semitones = 1; semitones < pitch_classes; ++semitones) {
    const bool changes_something = std::ranges::any_of(
        line.stretches, [&](const Stretch& stretch) { return moved_up(stretch.tones, semitones) != stretch.tones; });
    if (changes_something) shifted.push_back(moved[static_cast<std::size_t>(semitones)]);
  }
  return against_shifts(moved.front(), shifted);
}

}  // namespace insideline
