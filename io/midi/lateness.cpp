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

/// A note in `bin`, played so many steps late, is meant for this one.
std::size_t meant_bin(std::size_t bin, std::size_t step) {
  return (bin + bins + bins_a_step * steps_ahead - bins_a_step * step) % bins;
}

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
    for (std::size_t bin = 0; bin < bins; ++bin) sums.at((bin + centre) % bins) += frequent.share * bell.at(bin);
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
std::vector<ByStep> costs_by_beat(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                                  const Densities& simple, const Densities& compound) {
  constexpr double memory_beats = 4.0;  // for so long the usual lateness is believed in once; silence says nothing
  std::vector<ByStep> costs(cells.size());
  std::size_t cell = 0;
  std::size_t heard = cells.size();
  for (const TimedNote& note : notes) {
    cell = cell_at(cells, note.onset_seconds, cell);
    if (cell != heard)
      for (std::size_t step = 0; step < steps; ++step)
        costs[cell].at(step) += cost_of_lateness(lateness_of(step)) / memory_beats;
    heard = cell;
    const Densities& densities = cells[cell].kind == BeatKind::simple ? simple : compound;
    const std::size_t bin = bin_of(note, cells[cell]);
    for (std::size_t step = 0; step < steps; ++step) costs[cell].at(step) -= densities.at(meant_bin(bin, step));
  }
  return costs;
}

/// The cheapest course through the beats.
std::vector<double> cheapest_course(std::span<const ByStep> costs) {
  constexpr double moving = 2.0;  // a step of lateness from one beat to the next
  std::vector<std::array<std::uint8_t, steps>> before(costs.size());
  ByStep totals{};
  for (std::size_t beat = 0; beat < costs.size(); ++beat) {
    ByStep next{};
    for (std::size_t step = 0; step < steps; ++step) {
      std::size_t from = step;
      double cheapest = totals.at(step);
      for (const std::size_t other : {step - 1, step + 1}) {
        if (other >= steps || totals.at(other) + moving >= cheapest) continue;
        cheapest = totals.at(other) + moving;
        from = other;
      }
      next.at(step) = cheapest + costs[beat].at(step);
      before[beat].at(step) = static_cast<std::uint8_t>(from);
    }
    totals = next;
  }
  std::vector<double> late(costs.size());
  auto step = static_cast<std::size_t>(std::ranges::min_element(totals) - totals.begin());
  for (std::size_t beat = costs.size(); beat-- > 0;) {
    late[beat] = lateness_of(step);
    step = before[beat].at(step);
  }
  return late;
}

/// Where in the beat notes are, all beats together.
class PlacesInBeat {
 public:
  PlacesInBeat(std::span<const TimedNote> notes, std::span<const BeatCell> cells) {
    std::size_t cell = 0;
    for (const TimedNote& note : notes) {
      cell = cell_at(cells, note.onset_seconds, cell);
      seconds_ += cells[cell].length_seconds;
      ++notes_;
      if (cells[cell].kind == BeatKind::simple) counts_.at(bin_of(note, cells[cell])) += 1.0;
    }
  }
  [[nodiscard]] double beat_seconds() const { return notes_ == 0 ? 0.5 : seconds_ / notes_; }

  /// Of the whole line at its cheapest lateness.
  [[nodiscard]] double cost(const Densities& densities) const {
    ByStep sums{};
    for (std::size_t step = 0; step < steps; ++step) sums.at(step) = cost_of_lateness(lateness_of(step));
    for (std::size_t bin = 0; bin < bins; ++bin) {
      if (counts_.at(bin) <= 0.0) continue;
      for (std::size_t step = 0; step < steps; ++step)
        sums.at(step) -= counts_.at(bin) * densities.at(meant_bin(bin, step));
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
  const PlacesInBeat places(notes, cells);
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
  manner.late = cheapest_course(costs_by_beat(notes, cells, best, compound_frequencies(spread)));
  return manner;
}

}  // namespace insideline::io
