#include "io/midi/rhythm_path.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

namespace insideline::io {
namespace {

constexpr float never = std::numeric_limits<float>::infinity();
constexpr float beam = 8.0F;           // a place this much dearer than the best one for its note is not followed
constexpr float way_beam = 14.0F;      // likewise for whole ways
constexpr float change_cost = 0.7F;    // another subdivision than in the beat before
constexpr float crowded_cost = 14.0F;  // two notes on one place; the first is then read as a grace note
constexpr float mixed_cost = 10.0F;    // two subdivisions in one beat
constexpr float grace_cost = 5.0F;
constexpr double grace_seconds = 0.095;  // longest distance of a grace note to what it leads to
constexpr std::size_t most_graces = 3;   // in a row
constexpr float far_square = 16.0F;  // beyond four deviations distance costs in proportion: one bad note bends nothing
constexpr double off_beat_looseness = 0.02;  // in beats: how much a swung off-beat wanders besides
// Values shorter than this are hardly played as written sixteenths (common practice, no source).
constexpr double easy_seconds = 0.095;
constexpr double fast_cost_per_second = 100.0;
constexpr std::uint8_t plain_parts = 2;
constexpr double reach_deviations = 5.0;     // parts further away are looked at only where the beats are slow ...
constexpr double least_reach_beats = 0.125;  // ... and in the whole beat where nothing is near

constexpr std::uint32_t nothing_before = std::numeric_limits<std::uint32_t>::max();

/// One part of one subdivision, as it lies in a beat of a given length.
struct Part {
  float seconds = 0.0F;       ///< after the beat
  float per_variance = 0.0F;  ///< one over the variance of a note that is meant for it
  float enter = 0.0F;         ///< cost of a figure that begins here
  float leave = 0.0F;         ///< and of one that ends here
  float at_least = 0.0F;      ///< what choosing the figure costs, however the notes around it lie
  std::uint8_t figure = 0;
  std::uint8_t part = 0;
};

struct State {
  std::uint32_t cell = 0;
  std::uint8_t figure = 0;
  std::uint8_t part = 0;
  std::uint8_t graces = 0;                ///< notes jumped over on the way from `before`
  std::uint32_t before = nothing_before;  ///< index into all states
  float enter = 0.0F;
  float leave = 0.0F;
  float here = 0.0F;      ///< cost of the note in this place
  float at_least = 0.0F;  ///< with what its figure costs at least
  float total = never;    ///< of the cheapest way that ends here
};

/// Choosing a figure, dearer where its parts would be very short.
float figure_cost(const Subdivision& figure, double cell_seconds) {
  if (figure.parts <= plain_parts) return figure.cost;
  const double part_seconds = cell_seconds / figure.parts;
  return figure.cost + static_cast<float>(std::max(0.0, easy_seconds - part_seconds) * fast_cost_per_second);
}

/// The parts of all subdivisions in one kind of beat, in order of time. Made again when beat or player change.
class BeatParts {
 public:
  std::span<const Part> parts(const BeatCell& cell, std::span<const Subdivision> figures, const Manner& player) {
    constexpr double inaudible_seconds = 1e-4;
    const bool same = std::abs(length_ - cell.length_seconds) < inaudible_seconds && kind_ == cell.kind &&
                      off_beat_ == player.off_beat;
    if (!same || parts_.empty()) fill(cell, figures, player);
    return parts_;
  }

 private:
  void fill(const BeatCell& cell, std::span<const Subdivision> figures, const Manner& player) {
    length_ = cell.length_seconds;
    kind_ = cell.kind;
    off_beat_ = player.off_beat;
    parts_.clear();
    const double variance = player.spread_seconds * player.spread_seconds;
    const double looseness = off_beat_looseness * length_;
    for (std::size_t f = 0; f < figures.size(); ++f) {
      const Subdivision& figure = figures[f];
      if (figure.kind != kind_) continue;
      const float cost = figure_cost(figure, length_);
      for (std::uint8_t part = 0; part < figure.parts; ++part) {
        const bool swings = part > 0 && figure.placing == Placing::swung;
        parts_.push_back({static_cast<float>(length_ * position_in_beat(figure, part, off_beat_)),
                          static_cast<float>(1.0 / (variance + (swings ? looseness * looseness : 0.0))),
                          cost + figure.enter.at(part), figure.leave.at(part),
                          std::max(0.0F, cost - figure.gain_after_last), static_cast<std::uint8_t>(f), part});
      }
    }
    std::ranges::stable_sort(parts_, {}, &Part::seconds);
  }

  double length_ = 0.0;
  BeatKind kind_ = BeatKind::simple;
  double off_beat_ = 0.0;
  std::vector<Part> parts_;
};

float deviation_cost(float distance, float per_variance) {
  const float square = distance * distance * per_variance;
  if (square <= far_square) return square / 2.0F;
  return (2.0F * std::sqrt(square * far_square) - far_square) / 2.0F;
}

/// Finds the way. Invariant: `states_` holds the states of the notes seen so far, `first_` where each note's begin.
class PathFinder {
 public:
  PathFinder(std::span<const TimedNote> notes, std::span<const BeatCell> cells, std::span<const Subdivision> figures,
             std::span<const Manner> manners)
      : notes_(notes), cells_(cells), figures_(figures), manners_(manners) {
    constexpr std::size_t usual_states = 6;
    states_.reserve(notes.size() * usual_states);
  }

  Reading find() {
    std::size_t cell = 0;
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      first_.push_back(static_cast<std::uint32_t>(states_.size()));
      cell = cell_at(cells_, notes_[i].onset_seconds, cell);
      add_states(i, cell);
      connect(i);
    }
    first_.push_back(static_cast<std::uint32_t>(states_.size()));
    return traced_back();
  }

 private:
  const Manner& manner(std::size_t note) const { return manners_.size() == 1 ? manners_.front() : manners_[note]; }

  void add_states(std::size_t note, std::size_t cell) {
    const double reach =
        std::max(reach_deviations * manner(note).spread_seconds, least_reach_beats * cells_[cell].length_seconds);
    const double into = notes_[note].onset_seconds - manner(note).late_seconds - cells_[cell].onset_seconds;
    float cheapest = never;
    add_places(note, cell, reach, cheapest);
    if (cell > 0 && into < reach) add_places(note, cell - 1, reach, cheapest);
    if (cell + 1 < cells_.size() && into + reach > cells_[cell].length_seconds)
      add_places(note, cell + 1, reach, cheapest);
    if (states_.size() == first_.back()) add_places(note, cell, cells_[cell].length_seconds, cheapest);
    const auto begin = states_.begin() + first_.back();
    const float limit = cheapest + beam;
    states_.erase(std::remove_if(begin, states_.end(), [&](const State& state) { return state.at_least > limit; }),
                  states_.end());
  }

  void add_places(std::size_t note, std::size_t c, double reach, float& cheapest) {
    const BeatCell& cell = cells_[c];
    const Manner& player = manner(note);
    const auto into = static_cast<float>(notes_[note].onset_seconds - player.late_seconds - cell.onset_seconds);
    const std::span<const Part> parts = parts_.parts(cell, figures_, player);
    const auto first = std::ranges::lower_bound(parts, into - static_cast<float>(reach), {}, &Part::seconds);
    const float last = into + static_cast<float>(reach);
    for (auto part = first; part != parts.end() && part->seconds <= last; ++part) {
      const float cost = deviation_cost(into - part->seconds, part->per_variance);
      const float at_least = cost + part->at_least;
      if (at_least > cheapest + beam) continue;
      cheapest = std::min(cheapest, at_least);
      states_.push_back({static_cast<std::uint32_t>(c), part->figure, part->part, 0, nothing_before, part->enter,
                         part->leave, cost, at_least, never});
    }
  }

  void connect(std::size_t note) {
    const std::size_t jumps = graces_before(note);
    for (std::size_t s = first_[note]; s < states_.size(); ++s) {
      State& state = states_[s];
      for (std::size_t graces = 0; graces <= jumps; ++graces) {
        const float jumped = grace_cost * static_cast<float>(graces);
        if (graces == note)
          start_at(state, jumped, graces);
        else
          come_from(note - graces - 1, state, jumped, graces);
      }
      state.total += state.here;
    }
    drop_dear_ways(note);
  }

  /// States that are far dearer than the cheapest are on no way that wins.
  void drop_dear_ways(std::size_t note) {
    const auto begin = states_.begin() + first_[note];
    const float cheapest = std::min_element(begin, states_.end(), cheaper)->total;
    if (cheapest == never) return crowd(note);
    states_.erase(
        std::remove_if(begin, states_.end(), [&](const State& state) { return state.total > cheapest + way_beam; }),
        states_.end());
  }

  static bool cheaper(const State& a, const State& b) { return a.total < b.total; }

  /// Where nothing else leads on, the note shares the place of the one before, so that there always is a way.
  void crowd(std::size_t note) {
    const auto begin = states_.begin() + first_[note - 1];
    const auto cheapest = std::min_element(begin, states_.begin() + first_[note],
                                           [](const State& a, const State& b) { return a.total < b.total; });
    State state = *cheapest;
    state.before = static_cast<std::uint32_t>(cheapest - states_.begin());
    state.graces = 0;
    state.total += crowded_cost + beam;
    states_.resize(first_[note]);
    states_.push_back(state);
  }

  /// How many notes directly before `note` may be grace notes that lead to it.
  std::size_t graces_before(std::size_t note) const {
    std::size_t graces = 0;
    while (graces < most_graces && graces < note) {
      const std::size_t grace = note - graces - 1;
      const double next = notes_[grace + 1].onset_seconds - notes_[grace].onset_seconds;
      const double whole = notes_[note].onset_seconds - notes_[grace].onset_seconds;
      if (next >= grace_seconds || whole >= 2.0 * grace_seconds) break;
      ++graces;
    }
    return graces;
  }

  static void start_at(State& state, float jumped, std::size_t graces) {
    const float cost = state.enter + jumped;
    if (cost >= state.total) return;
    state.total = cost;
    state.before = nothing_before;
    state.graces = static_cast<std::uint8_t>(graces);
  }

  void come_from(std::size_t note, State& state, float jumped, std::size_t graces) const {
    const auto take = [&](std::uint32_t before, float cost) {
      if (cost + jumped >= state.total) return;
      state.total = cost + jumped;
      state.before = before;
      state.graces = static_cast<std::uint8_t>(graces);
    };
    for (std::uint32_t q = first_[note]; q < first_[note + 1]; ++q) {
      const State& before = states_[q];
      if (before.cell > state.cell) continue;
      take(q,
           before.total + (before.cell < state.cell ? next_beat_cost(before, state) : same_beat_cost(before, state)));
    }
  }

  float next_beat_cost(const State& before, const State& after) const {
    if (before.figure == after.figure) return before.leave + after.enter;
    const float gain = figures_[after.figure].gain_after_last;
    const bool gains = gain > 0.0F && before.cell + 1 == after.cell &&
                       before.part + 1 == figures_[before.figure].parts &&
                       figures_[before.figure].parts == figures_[after.figure].parts;
    return before.leave + change_cost + after.enter - (gains ? gain : 0.0F);
  }

  float same_beat_cost(const State& before, const State& after) const {
    if (before.figure != after.figure) {
      const bool later = before.part * figures_[after.figure].parts < after.part * figures_[before.figure].parts;
      return later ? mixed_cost + after.enter : never;
    }
    if (before.part > after.part) return never;
    if (before.part == after.part) return crowded_cost;
    return figures_[before.figure].skip_cost * static_cast<float>(after.part - before.part - 1);
  }

  Reading traced_back() const {
    if (notes_.empty()) return {};
    std::vector<Placed> placed(notes_.size());
    const auto last = states_.begin() + first_[notes_.size() - 1];
    const auto total = [](const State& state) { return state.total + state.leave; };
    auto s = static_cast<std::uint32_t>(std::ranges::min_element(last, states_.end(), {}, total) - states_.begin());
    const double cost = total(states_[s]);
    for (std::size_t i = notes_.size(); i-- > 0;) {
      const State& state = states_[s];
      placed[i] = {state.cell, state.figure, state.part, false};
      for (std::size_t graces = state.graces; graces > 0; --graces) {
        --i;
        placed[i] = {state.cell, state.figure, state.part, true};
      }
      s = state.before;
    }
    mark_crowded(placed);
    return {std::move(placed), cost};
  }

  static void mark_crowded(std::vector<Placed>& placed) {
    for (std::size_t i = 0; i + 1 < placed.size(); ++i)
      if (placed[i].cell == placed[i + 1].cell && placed[i].subdivision == placed[i + 1].subdivision &&
          placed[i].part == placed[i + 1].part)
        placed[i].grace = true;
  }

  std::span<const TimedNote> notes_;
  std::span<const BeatCell> cells_;
  std::span<const Subdivision> figures_;
  std::span<const Manner> manners_;
  BeatParts parts_;
  std::vector<State> states_;
  std::vector<std::uint32_t> first_;
};

}  // namespace

double position_in_beat(const Subdivision& subdivision, std::size_t part, double off_beat) {
  const double even = static_cast<double>(part) / subdivision.parts;
  if (subdivision.placing == Placing::even) return even;
  constexpr double half = 0.5;
  return even < half ? even * off_beat / half : off_beat + (even - half) * (1.0 - off_beat) / half;
}

Reading cheapest_path(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                      std::span<const Subdivision> figures, std::span<const Manner> manners) {
  assert(!cells.empty() && (manners.size() == 1 || manners.size() == notes.size()) && "beats and players are known");
  return PathFinder(notes, cells, figures, manners).find();
}

}  // namespace insideline::io
