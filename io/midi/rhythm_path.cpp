#include "io/midi/rhythm_path.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

namespace insideline::io {
namespace {

constexpr float never = std::numeric_limits<float>::infinity();
constexpr float beam = 6.0F;           // a place this much dearer than the best one for its note is not followed
constexpr float way_beam = 9.0F;       // likewise for whole ways
constexpr float change_cost = 0.7F;    // another subdivision than in the beat before
constexpr float crowded_cost = 14.0F;  // two notes on one place; the first is then read as a grace note
constexpr float mixed_cost = 10.0F;    // two subdivisions in one beat
constexpr float grace_cost = 6.0F;
constexpr double grace_seconds = 0.08;  // longest distance of a grace note to what it leads to
constexpr std::size_t most_graces = 3;  // in a row
constexpr float far_square = 16.0F;  // beyond four deviations distance costs in proportion: one bad note bends nothing
// Onsets wander with the length of the beat, too, and a swung off-beat more than others.
constexpr double looseness_beats = 0.025;
constexpr double off_beat_looseness_beats = 0.04;
// Notes closer than this are hardly played as written sixteenths (common practice, no source).
constexpr double easy_seconds = 0.095;
constexpr double fast_cost_per_second = 35.0;
constexpr double reach_deviations = 3.5;    // parts further away are looked at only where the beats are slow ...
constexpr double least_reach_beats = 0.16;  // ... and in the whole beat where nothing is near
// In beats: what is written further from where it was played must be well explained ...
constexpr float well_explained = 1.0F / 6.0F;
constexpr float moving_cost_per_beat = 50.0F;
constexpr float a_sixteenth = 0.25F;  // ... and nothing is moved as far as this, in quarter notes

constexpr std::uint32_t nothing_before = std::numeric_limits<std::uint32_t>::max();

/// One part of one subdivision.
struct Part {
  float sounds = 0.0F;    ///< after the beat, in beats, with this player's swing
  float written = 0.0F;   ///< as the page has it
  float enter = 0.0F;     ///< cost of a figure that begins here
  float leave = 0.0F;     ///< and of one that ends here
  float at_least = 0.0F;  ///< what choosing the figure costs, however the notes around it lie
  std::uint8_t figure = 0;
  std::uint8_t part = 0;
  bool swings = false;
  float free_way = 0.0F;  ///< so far, in beats, may a note have been played from where the page has it at no cost
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

/// The parts of all subdivisions of one kind of beat, in order of time.
std::vector<Part> parts_of(BeatKind kind, std::span<const Subdivision> figures, double off_beat) {
  std::vector<Part> parts;
  for (std::size_t f = 0; f < figures.size(); ++f) {
    const Subdivision& figure = figures[f];
    if (figure.kind != kind) continue;
    for (std::uint8_t part = 0; part < figure.parts; ++part)
      parts.push_back({static_cast<float>(position_in_beat(figure, part, off_beat)),
                       static_cast<float>(part) / static_cast<float>(figure.parts), figure.cost + figure.enter.at(part),
                       figure.leave.at(part), std::max(0.0F, figure.cost - figure.gain_after_last),
                       static_cast<std::uint8_t>(f), part, part > 0 && figure.placing == Placing::swung, 0.0F});
    for (Part& part : parts)
      part.free_way = std::max(well_explained, std::abs(part.sounds - part.written) + well_explained / 2.0F);
  }
  std::ranges::sort(parts, {}, [](const Part& part) { return std::tuple(part.sounds, part.figure, part.part); });
  return parts;
}

/// How surely a note lies near its part, in a beat of a given length: one over the variance, in beats.
struct Sureness {
  Sureness(double spread_seconds, double beat_seconds) {
    const double spread = spread_seconds / beat_seconds;
    const double variance = spread * spread + looseness_beats * looseness_beats;
    even = static_cast<float>(1.0 / variance);
    swung = static_cast<float>(1.0 / (variance + off_beat_looseness_beats * off_beat_looseness_beats));
    reach = static_cast<float>(std::max(reach_deviations * std::sqrt(variance), least_reach_beats));
  }
  float even = 0.0F;
  float swung = 0.0F;
  float reach = 0.0F;  ///< in beats
};

float moving_cost(float beats) { return moving_cost_per_beat * std::max(0.0F, beats); }

/// Lateness explains why a note is behind its place, but nobody is late with every note: what lies between where a note
/// would sound in time and where this player would sound it counts half. Both distances are from the place to the note.
float unexplained(float from_late, float from_in_time) {
  constexpr float half = 0.5F;
  if (from_late >= 0.0F || from_in_time <= from_late) return from_late;
  return from_in_time >= 0.0F ? half * from_late : from_in_time + half * (from_late - from_in_time);
}

float deviation_cost(float distance, float per_variance) {
  const float square = distance * distance * per_variance;
  if (square <= far_square) return square / 2.0F;
  return (2.0F * std::sqrt(square * far_square) - far_square) / 2.0F;
}

/// Finds the way. Invariant: `states_` holds the states of the notes seen so far, `first_` where each note's begin.
class PathFinder {
 public:
  PathFinder(std::span<const TimedNote> notes, std::span<const BeatCell> cells, std::span<const Subdivision> figures,
             const Manner& manner, Reach reach)
      : notes_(notes),
        cells_(cells),
        figures_(figures),
        manner_(manner),
        farthest_(reach == Reach::near ? a_sixteenth : never),
        simple_(parts_of(BeatKind::simple, figures, manner.off_beat)),
        compound_(parts_of(BeatKind::compound, figures, manner.off_beat)) {
    constexpr std::size_t usual_states = 6;
    states_.reserve(notes.size() * usual_states);
  }

  Reading find() {
    std::size_t cell = 0;
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      first_.push_back(static_cast<std::uint32_t>(states_.size()));
      cell = cell_at(cells_, notes_[i].onset_seconds, cell);
      add_states(i, cell);
      cells_seen_ = cell;
      connect(i);
    }
    first_.push_back(static_cast<std::uint32_t>(states_.size()));
    return traced_back();
  }

 private:
  void add_states(std::size_t note, std::size_t cell) {
    const double late = manner_.late[cell] * cells_[cell].length_seconds;
    const double meant = notes_[note].onset_seconds - late;
    const Sureness sureness(manner_.spread_seconds, cells_[cell].length_seconds);
    const auto into = static_cast<float>((meant - cells_[cell].onset_seconds) / cells_[cell].length_seconds);
    float cheapest = never;
    add_places(note, cell, meant, sureness, cheapest);
    if (cell > 0 && into < sureness.reach) add_places(note, cell - 1, meant, sureness, cheapest);
    if (cell + 1 < cells_.size() && into + sureness.reach > 1.0F) add_places(note, cell + 1, meant, sureness, cheapest);
    if (states_.size() == first_.back()) add_whole_beat(note, cell, meant, sureness, cheapest);
    const auto begin = states_.begin() + first_.back();
    const float limit = cheapest + beam;
    states_.erase(std::remove_if(begin, states_.end(), [&](const State& state) { return state.at_least > limit; }),
                  states_.end());
  }

  void add_whole_beat(std::size_t note, std::size_t cell, double meant, Sureness sureness, float& cheapest) {
    sureness.reach = 1.0F;
    add_places(note, cell, meant, sureness, cheapest);
  }

  void add_places(std::size_t note, std::size_t c, double meant, const Sureness& sureness, float& cheapest) {
    const BeatCell& cell = cells_[c];
    const auto into = static_cast<float>((meant - cell.onset_seconds) / cell.length_seconds);
    const auto played = static_cast<float>((notes_[note].onset_seconds - cell.onset_seconds) / cell.length_seconds);
    const float quarters = static_cast<float>(cell.length) / units_per_quarter;
    const std::vector<Part>& parts = cell.kind == BeatKind::simple ? simple_ : compound_;
    const float last = into + sureness.reach;
    for (auto part = std::ranges::lower_bound(parts, into - sureness.reach, {}, &Part::sounds);
         part != parts.end() && part->sounds <= last; ++part) {
      if (std::abs(played - part->sounds) * quarters >= farthest_) continue;
      const float moved = std::abs(played - part->written) - part->free_way;
      const float distance = unexplained(into - part->sounds, played - part->sounds);
      const float cost = deviation_cost(distance, part->swings ? sureness.swung : sureness.even) + moving_cost(moved);
      const float at_least = cost + part->at_least;
      if (at_least > cheapest + beam) continue;
      cheapest = std::min(cheapest, at_least);
      states_.push_back({static_cast<std::uint32_t>(c), part->figure, part->part, 0, nothing_before, part->enter,
                         part->leave, cost, at_least, never});
    }
  }

  void connect(std::size_t note) {
    const std::size_t jumps = graces_before(note);
    std::array<float, most_graces + 1> jumped{};
    for (std::size_t graces = 1; graces <= jumps; ++graces)
      jumped.at(graces) = jumped.at(graces - 1) + cost_of_grace(note - graces);
    for (std::size_t s = first_[note]; s < states_.size(); ++s) {
      State& state = states_[s];
      for (std::size_t graces = 0; graces <= jumps; ++graces) {
        if (graces == note)
          start_at(state, jumped.at(graces), graces);
        else
          come_from(note - graces - 1, state, jumped.at(graces), graces);
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

  float cost_of_grace(std::size_t note) const {
    const std::size_t cell = cell_at(cells_, notes_[note].onset_seconds, cells_seen_);
    const double seconds = notes_[note + 1].onset_seconds - notes_[note].onset_seconds;
    return grace_cost + moving_cost(static_cast<float>(seconds / cells_[cell].length_seconds) - well_explained);
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
    const Subdivision& figure = figures_[before.figure];
    if (after.part > before.part + 1) return figure.skip_cost * static_cast<float>(after.part - before.part - 1);
    const double part_seconds = cells_[before.cell].length_seconds / figure.parts;
    return static_cast<float>(std::max(0.0, easy_seconds - part_seconds) * fast_cost_per_second);
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
  const Manner& manner_;
  std::size_t cells_seen_ = 0;
  float farthest_;  // in quarter notes
  std::vector<Part> simple_;
  std::vector<Part> compound_;
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
                      std::span<const Subdivision> figures, const Manner& manner, Reach reach) {
  assert(!cells.empty() && manner.late.size() == cells.size() && "beats and player are known");
  return PathFinder(notes, cells, figures, manner, reach).find();
}

}  // namespace insideline::io
