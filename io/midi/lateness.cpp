#include "io/midi/lateness.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>

namespace insideline::io {
namespace {

constexpr std::size_t bins = 100;  // of a beat
using Densities = std::array<double, bins>;

struct HeardNote {
  std::size_t cell = 0;
  std::size_t bin = 0;
};

// Lateness is looked for in steps of two bins, from a little ahead of the beat to as far behind as a line still swings.
constexpr std::size_t bins_a_step = 2;
constexpr std::size_t steps_ahead = 4;
constexpr std::size_t steps = 12;
using ByStep = std::array<double, steps>;

double lateness_of(std::size_t step) {
  return (static_cast<double>(step) - static_cast<double>(steps_ahead)) * static_cast<double>(bins_a_step) / bins;
}

std::size_t bin_of(const TimedNote& note, const BeatCell& cell) {
  const double into = (note.onset_seconds - cell.onset_seconds) / cell.length_seconds;
  const auto bin = static_cast<std::int64_t>(std::floor(into * bins));
  return static_cast<std::size_t>(std::clamp<std::int64_t>(bin, 0, bins - 1));
}

std::vector<HeardNote> heard_notes(std::span<const TimedNote> notes, std::span<const BeatCell> cells) {
  std::vector<HeardNote> heard;
  heard.reserve(notes.size());
  std::size_t cell = 0;
  for (const TimedNote& note : notes) {
    cell = cell_at(cells, note.onset_seconds, cell);
    heard.push_back({cell, bin_of(note, cells[cell])});
  }
  return heard;
}

/// Densities around the beat and a little on at both ends, so that a late note is looked up where it was meant.
class DensitiesWhenLate {
 public:
  explicit DensitiesWhenLate(const Densities& densities) {
    for (std::size_t i = 0; i < around_.size(); ++i) around_[i] = densities[(i + bins - latest) % bins];
  }
  /// Where a note in `bin` is meant that is played so many steps late.
  [[nodiscard]] double at(std::size_t bin, std::size_t step) const {
    return around_[bin + latest + bins_a_step * steps_ahead - bins_a_step * step];
  }

 private:
  static constexpr std::size_t latest = bins_a_step * (steps - 1 - steps_ahead);
  std::array<double, latest + bins + bins_a_step * steps_ahead> around_{};
};

/// How notes spread around one place.
Densities bell(double spread) {
  Densities densities{};
  for (std::size_t bin = 0; bin < bins; ++bin) {
    const double distance = (static_cast<double>(std::min(bin, bins - bin)) + 0.25) / bins / spread;
    densities.at(bin) = std::exp(-0.5 * distance * distance) / spread;
  }
  return densities;
}

struct FrequentPlace {
  double place;
  double share;
};

/// Logarithms of how frequent notes of any rhythm are around the beat; shares are round numbers: common practice, no
/// source.
Densities frequencies(const Densities& bell, std::span<const FrequentPlace> places) {
  constexpr double anywhere = 0.2;
  Densities sums{};
  sums.fill(anywhere);
  for (const FrequentPlace& frequent : places) {
    const auto centre = static_cast<std::size_t>(frequent.place * bins);
    for (std::size_t bin = centre; bin < bins; ++bin) sums[bin] += frequent.share * bell[bin - centre];
    for (std::size_t bin = 0; bin < centre; ++bin) sums[bin] += frequent.share * bell[bin + bins - centre];
  }
  for (double& sum : sums) sum = std::log(sum);
  return sums;
}

Densities simple_frequencies(const Densities& bell, double off_beat) {
  return frequencies(
      bell, std::array<FrequentPlace, 6>{
                {{0.0, 0.42}, {off_beat, 0.34}, {1.0 / 3, 0.04}, {2.0 / 3, 0.05}, {0.25, 0.04}, {0.75, 0.06}}});
}

Densities compound_frequencies(const Densities& bell) {
  return frequencies(bell, std::array<FrequentPlace, 3>{{{0.0, 0.4}, {1.0 / 3, 0.28}, {2.0 / 3, 0.28}}});
}

/// Most players sit a little behind the beat (common practice; in transcribed solos .03 of a beat in the middle).
double cost_of_lateness(double late) {
  constexpr double usual = 0.02;
  constexpr double deviation = 0.03;
  return 0.5 * (late - usual) * (late - usual) / (deviation * deviation);
}

/// Swing evens out as the tempo rises: some 2:1 at leisure, nearly even at 300 beats a minute (Friberg & Sundstroem,
/// Music Perception 19(3), 2002).
double cost_of_swing(double off_beat, double beat_seconds) {
  constexpr double slow_seconds = 0.6;
  constexpr double swing_of_slow = 0.12;
  constexpr double deviation = 0.07;
  const double usual = 0.5 + swing_of_slow * std::min(1.0, beat_seconds / slow_seconds);
  return 0.5 * (off_beat - usual) * (off_beat - usual) / (deviation * deviation);
}

/// What each lateness costs each beat.
std::vector<ByStep> costs_by_beat(std::span<const HeardNote> notes, std::span<const BeatCell> cells,
                                  const Densities& simple, const Densities& compound) {
  constexpr double memory_beats = 4.0;  // for so long the usual lateness is believed in once; silence says nothing
  ByStep usual{};
  for (std::size_t step = 0; step < steps; ++step) usual[step] = cost_of_lateness(lateness_of(step)) / memory_beats;
  const DensitiesWhenLate in_simple(simple);
  const DensitiesWhenLate in_compound(compound);
  std::vector<ByStep> costs(cells.size());
  std::size_t heard = cells.size();
  for (const HeardNote& note : notes) {
    ByStep& beat = costs[note.cell];
    if (note.cell != heard) beat = usual;
    heard = note.cell;
    const DensitiesWhenLate& densities = cells[note.cell].kind == BeatKind::simple ? in_simple : in_compound;
    for (std::size_t step = 0; step < steps; ++step) beat[step] -= densities.at(note.bin, step);
  }
  return costs;
}

/// The cheapest course through the beats.
std::vector<double> cheapest_course(std::span<const ByStep> costs) {
  constexpr double moving = 2.0;  // a step of lateness from one beat to the next
  constexpr double never = std::numeric_limits<double>::infinity();
  std::vector<std::array<std::uint8_t, steps>> before(costs.size());
  std::array<double, steps + 2> totals{};  // with nothing to come from at both ends
  totals.front() = totals.back() = never;
  for (std::size_t beat = 0; beat < costs.size(); ++beat) {
    double below = never;
    for (std::size_t step = 0; step < steps; ++step) {
      const double same = totals[step + 1];
      const double above = totals[step + 2];
      std::size_t from = step;
      double cheapest = same;
      if (below + moving < cheapest) {
        cheapest = below + moving;
        from = step - 1;
      }
      if (above + moving < cheapest) {
        cheapest = above + moving;
        from = step + 1;
      }
      totals[step + 1] = cheapest + costs[beat][step];
      before[beat][step] = static_cast<std::uint8_t>(from);
      below = same;
    }
  }
  std::vector<double> late(costs.size());
  const auto* const first = totals.begin() + 1;
  auto step = static_cast<std::size_t>(std::min_element(first, first + steps) - first);
  for (std::size_t beat = costs.size(); beat-- > 0;) {
    late[beat] = lateness_of(step);
    step = before[beat].at(step);
  }
  return late;
}

/// Where in the beat notes are, all beats together.
class PlacesInBeat {
 public:
  PlacesInBeat(std::span<const HeardNote> notes, std::span<const BeatCell> cells) {
    for (const HeardNote& note : notes) {
      seconds_ += cells[note.cell].length_seconds;
      ++notes_;
      if (cells[note.cell].kind == BeatKind::simple) counts_[note.bin] += 1.0;
    }
  }
  [[nodiscard]] double beat_seconds() const { return notes_ == 0 ? 0.5 : seconds_ / notes_; }

  /// Of the whole line at its cheapest lateness.
  [[nodiscard]] double cost(const Densities& densities) const {
    const DensitiesWhenLate when_late(densities);
    ByStep sums{};
    for (std::size_t step = 0; step < steps; ++step) sums[step] = cost_of_lateness(lateness_of(step));
    for (std::size_t bin = 0; bin < bins; ++bin) {
      if (counts_[bin] <= 0.0) continue;
      for (std::size_t step = 0; step < steps; ++step) sums[step] -= counts_[bin] * when_late.at(bin, step);
    }
    return *std::ranges::min_element(sums);
  }

 private:
  std::array<double, bins> counts_{};
  double seconds_ = 0.0;
  double notes_ = 0.0;
};

}  // namespace

Manner first_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells) {
  assert(!cells.empty() && "there are beats");
  constexpr std::array off_beats = {0.50, 0.54, 0.58, 0.62, 0.66, 0.70, 0.75, 0.78};
  constexpr double wandering = 0.025;  // in beats: places are never quite where they are meant
  Manner manner;
  const std::vector<HeardNote> heard = heard_notes(notes, cells);
  const PlacesInBeat places(heard, cells);
  const Densities spread = bell(std::hypot(manner.spread_seconds / places.beat_seconds(), wandering));
  Densities best{};
  double cheapest = std::numeric_limits<double>::infinity();
  for (const double off_beat : off_beats) {
    const Densities densities = simple_frequencies(spread, off_beat);
    const double cost = places.cost(densities) + cost_of_swing(off_beat, places.beat_seconds());
    if (cost >= cheapest) continue;
    cheapest = cost;
    manner.off_beat = off_beat;
    best = densities;
  }
  manner.late = cheapest_course(costs_by_beat(heard, cells, best, compound_frequencies(spread)));
  return manner;
}

}  // namespace insideline::io
