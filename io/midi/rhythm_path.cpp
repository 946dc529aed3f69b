#include "io/midi/rhythm_path.hpp"

#include "io/midi/parts_of_beat.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
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
constexpr double reach_deviations = 3.5;       // parts further away are looked at only where the beats are slow ...
constexpr double least_reach_beats = 0.16;     // ... and in the whole beat where nothing is near
constexpr float moving_cost_per_beat = 50.0F;  // beyond what is well explained
constexpr float a_sixteenth = 0.25F;           // nothing is moved as far as this, in quarter notes

constexpr std::uint32_t nothing_before = std::numeric_limits<std::uint32_t>::max();

struct State {
  std::uint32_t cell = 0;
  std::uint8_t figure = 0;
  std::uint8_t part = 0;
  std::uint8_t graces = 0;                ///< notes jumped over on the way from `before`
  bool lets_gain = false;                 ///< as Part
  std::uint32_t before = nothing_before;  ///< index into all states
  float enter = 0.0F;
  float leave = 0.0F;
  float here = 0.0F;    ///< cost of the note in this place
  float total = never;  ///< of the cheapest way that ends here
};

/// A place for a note, and what its distance costs.
struct NearPlace {
  std::uint32_t cell = 0;
  const PartsOfBeat* beat = nullptr;
  const PlaceInBeat* place = nullptr;
  float cost = 0.0F;
};

/// The cheapest way so far that ends a figure.
struct WayOut {
  float cost = never;
  std::uint32_t state = nothing_before;
};

/// From the places of one note to a later beat, and to the same beat.
struct WaysOut {
  WayOut cheapest;
  WayOut finished;  ///< from the last part in the beat before, where a figure follows that gains by it
  std::array<float, most_subdivisions> figure_costs{};           ///< of the cheapest that ends each figure ...
  std::array<std::uint32_t, most_subdivisions> figure_states{};  ///< ... and where it begins
  std::uint32_t same_beat = 0;                                   ///< states [same_beat, same_beat_end) are in that beat
  std::uint32_t same_beat_end = 0;
  float same_beat_total = never;  ///< of the cheapest of them
};

/// Over grace notes.
struct Jump {
  float cost = 0.0F;
  std::uint8_t graces = 0;
};

/// How surely a note lies near its part, in a beat of a given length: one over the variance, in beats.
struct Sureness {
  Sureness() = default;
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
        simple_(parts_in(BeatKind::simple)),
        compound_(parts_in(BeatKind::compound)) {
    constexpr std::size_t usual_states = 6;
    states_.reserve(notes.size() * usual_states);
    first_.reserve(notes.size() + 1);
  }

  Reading find() {
    for (std::size_t i = 0; i < notes_.size(); ++i) {
      first_.push_back(static_cast<std::uint32_t>(states_.size()));
      const std::size_t cell = cell_at(cells_, notes_[i].onset_seconds, cells_seen_);
      if (i == 0 || cell != cells_seen_) sureness_ = Sureness(manner_.spread_seconds, cells_[cell].length_seconds);
      add_states(i, cell);
      cells_seen_ = cell;
      connect(i);
    }
    first_.push_back(static_cast<std::uint32_t>(states_.size()));
    return traced_back();
  }

 private:
  /// None where no beat is of this kind.
  [[nodiscard]] PartsOfBeat parts_in(BeatKind kind) const {
    if (std::ranges::find(cells_, kind, &BeatCell::kind) == cells_.end()) return {};
    return parts_of(kind, figures_, manner_.off_beat);
  }

  void add_states(std::size_t note, std::size_t cell) {
    const double late = manner_.late[cell] * cells_[cell].length_seconds;
    const double meant = notes_[note].onset_seconds - late;
    const auto into = static_cast<float>((meant - cells_[cell].onset_seconds) / cells_[cell].length_seconds);
    near_.clear();
    cheapest_ = never;
    find_places(note, cell, meant, sureness_.reach);
    if (cell > 0 && into < sureness_.reach) find_places(note, cell - 1, meant, sureness_.reach);
    if (cell + 1 < cells_.size() && into + sureness_.reach > 1.0F) find_places(note, cell + 1, meant, sureness_.reach);
    if (near_.empty()) find_places(note, cell, meant, 1.0F);
    const float limit = cheapest_ + beam;
    for (const NearPlace& near : near_)
      for (std::size_t i = near.place->first; i < near.place->end; ++i) {
        const Part& part = near.beat->parts[i];
        if (near.cost + part.at_least > limit) continue;
        states_.push_back({near.cell, part.figure, part.part, 0, part.lets_gain, nothing_before, part.enter, part.leave,
                           near.cost, never});
      }
  }

  void find_places(std::size_t note, std::size_t c, double meant, float reach) {
    const BeatCell& cell = cells_[c];
    const auto into = static_cast<float>((meant - cell.onset_seconds) / cell.length_seconds);
    const auto played = static_cast<float>((notes_[note].onset_seconds - cell.onset_seconds) / cell.length_seconds);
    const float quarters = static_cast<float>(cell.length) / units_per_quarter;
    const PartsOfBeat& beat = cell.kind == BeatKind::simple ? simple_ : compound_;
    for (const PlaceInBeat& place : beat.places_from(into - reach)) {
      if (place.sounds > into + reach) break;
      if (place.at_least > cheapest_ + beam || std::abs(played - place.sounds) * quarters >= farthest_) continue;
      const float moved = std::abs(played - place.written) - place.free_way;
      const float distance = unexplained(into - place.sounds, played - place.sounds);
      const float cost = deviation_cost(distance, place.swings ? sureness_.swung : sureness_.even) + moving_cost(moved);
      if (cost + place.at_least > cheapest_ + beam) continue;
      cheapest_ = std::min(cheapest_, cost + place.at_least);
      near_.push_back({static_cast<std::uint32_t>(c), &beat, &place, cost});
    }
  }

  void connect(std::size_t note) {
    const std::size_t jumps = graces_before(note);
    std::array<float, most_graces + 1> jumped{};
    for (std::size_t graces = 1; graces <= jumps; ++graces)
      jumped.at(graces) = jumped.at(graces - 1) + cost_of_grace(note - graces);
    for (std::size_t begin = first_[note], end = begin; begin < states_.size(); begin = end) {
      while (end < states_.size() && states_[end].cell == states_[begin].cell) ++end;
      const auto beat = std::span(states_).subspan(begin, end - begin);
      for (std::size_t graces = 0; graces <= jumps; ++graces) {
        const Jump jump{jumped.at(graces), static_cast<std::uint8_t>(graces)};
        if (graces == note)
          for (State& state : beat) take_way(state, nothing_before, state.enter, jump);
        else
          come_from(note - graces - 1, beat, jump);
      }
      for (State& state : beat) state.total += state.here;
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

  static void take_way(State& state, std::uint32_t before, float cost, const Jump& jump) {
    if (cost + jump.cost >= state.total) return;
    state.total = cost + jump.cost;
    state.before = before;
    state.graces = jump.graces;
  }

  /// The cheapest ways from the places of `note` to those of a later note, which all are in one beat. From the beats
  /// before, only the cheapest way that ends each figure counts.
  void come_from(std::size_t note, std::span<State> after, const Jump& jump) {
    const std::uint32_t cell = after.front().cell;
    find_ways_out(note, cell);
    for (State& state : after) {
      const Subdivision& figure = figures_[state.figure];
      const WayOut& finished = ways_out_.finished;
      take_way(state, ways_out_.figure_states[state.figure], ways_out_.figure_costs[state.figure] + state.enter, jump);
      take_way(state, ways_out_.cheapest.state, ways_out_.cheapest.cost + change_cost + state.enter, jump);
      if (figure.gain_after_last > 0.0F)
        take_way(state, finished.state, finished.cost + change_cost + state.enter - figure.gain_after_last, jump);
      stay_in_beat(state, jump);
    }
  }

  /// From earlier places of the same beat: in the same figure as a rule.
  void stay_in_beat(State& state, const Jump& jump) const {
    for (std::uint32_t q = ways_out_.same_beat; q < ways_out_.same_beat_end; ++q)
      if (states_[q].figure == state.figure)
        take_way(state, q, states_[q].total + same_figure_cost(states_[q], state), jump);
    if (ways_out_.same_beat_total + mixed_cost + jump.cost >= state.total) return;
    for (std::uint32_t q = ways_out_.same_beat; q < ways_out_.same_beat_end; ++q)
      if (is_later(states_[q], state)) take_way(state, q, states_[q].total + mixed_cost + state.enter, jump);
  }

  /// Fills ways_out_ for ways from `note` to `cell`.
  void find_ways_out(std::size_t note, std::uint32_t cell) {
    ways_out_.cheapest = ways_out_.finished = {};
    ways_out_.figure_costs.fill(never);
    ways_out_.same_beat = ways_out_.same_beat_end = first_[note + 1];
    ways_out_.same_beat_total = never;
    for (std::uint32_t q = first_[note]; q < first_[note + 1]; ++q) {
      const State& before = states_[q];
      if (before.cell == cell) {
        ways_out_.same_beat = std::min(ways_out_.same_beat, q);
        ways_out_.same_beat_end = q + 1;
        ways_out_.same_beat_total = std::min(ways_out_.same_beat_total, before.total);
      }
      if (before.cell >= cell) continue;
      const WayOut way{before.total + before.leave, q};
      if (way.cost < ways_out_.cheapest.cost) ways_out_.cheapest = way;
      if (way.cost < ways_out_.figure_costs[before.figure]) {
        ways_out_.figure_costs[before.figure] = way.cost;
        ways_out_.figure_states[before.figure] = q;
      }
      if (before.lets_gain && before.cell + 1 == cell && way.cost < ways_out_.finished.cost) ways_out_.finished = way;
    }
  }

  bool is_later(const State& before, const State& after) const {
    return before.figure != after.figure &&
           before.part * figures_[after.figure].parts < after.part * figures_[before.figure].parts;
  }

  /// From one part of a figure to a later one.
  float same_figure_cost(const State& before, const State& after) const {
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
  Sureness sureness_;  // in that beat
  float farthest_;     // in quarter notes
  PartsOfBeat simple_;
  PartsOfBeat compound_;
  WaysOut ways_out_;
  std::vector<NearPlace> near_;  // of the note that is looked at ...
  float cheapest_ = never;       // ... and the least that any of them costs
  std::vector<State> states_;
  std::vector<std::uint32_t> first_;
};

}  // namespace

Reading cheapest_path(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                      std::span<const Subdivision> figures, const Manner& manner, Reach reach) {
  assert(figures.size() <= most_subdivisions && "the ways out have room for each");
  assert(!cells.empty() && manner.late.size() == cells.size() && "beats and player are known");
  return PathFinder(notes, cells, figures, manner, reach).find();
}

}  // namespace insideline::io
