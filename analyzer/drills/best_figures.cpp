#include "analyzer/drills/best_figures.hpp"

#include "analyzer/drills/aimed_figures.hpp"
#include "analyzer/drills/drill_costs.hpp"
#include "analyzer/heard_line.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <limits>

namespace insideline {
namespace {

constexpr int unreachable = std::numeric_limits<int>::max() / 4;
constexpr int pitches = 128;

bool in_range(int midi, const PitchRange& range) { return midi >= range.lowest && midi <= range.highest; }

/// The pitches that are the nearest tones of `chord`: one, or two where both are equally near.
struct Nearest {
  std::array<int, 2> midi{};
  std::size_t count = 0;
  bool compromised = false;  ///< the nearest of all lies outside the range
  void add(int pitch) { midi.at(count++) = pitch; }
  [[nodiscard]] bool has(int pitch) const {
    return std::find(midi.begin(), midi.begin() + static_cast<std::ptrdiff_t>(count), pitch) !=
           midi.begin() + static_cast<std::ptrdiff_t>(count);
  }
};

/// As `nearest_tones` of connections.hpp, by pitch alone.
Nearest nearest_in_range(int from, PitchClassSet tones, const DrillSettings& settings) {
  Nearest nearest;
  const bool is_common = contains(tones, pitch_class_of(from));
  if (settings.kind == DrillKind::common_tones && is_common) {
    nearest.add(from);
    return nearest;
  }
  if (tones == 0) return nearest;
  int up = from + 1;
  while (!contains(tones, pitch_class_of(up))) ++up;
  int down = from - 1;
  while (!contains(tones, pitch_class_of(down))) --down;
  const bool up_is_nearest = up - from <= from - down;
  const bool down_is_nearest = from - down <= up - from;
  if (up_is_nearest && in_range(up, settings.range)) nearest.add(up);
  if (down_is_nearest && in_range(down, settings.range)) nearest.add(down);
  if (nearest.count > 0) return nearest;
  nearest.compromised = true;
  if (in_range(up, settings.range)) nearest.add(up);
  if (in_range(down, settings.range)) nearest.add(down);
  if (nearest.count == 0 && is_common) nearest.add(from);
  return nearest;
}

std::optional<int> cost_at_change(const ConnectionRules& rules, const Nearest& nearest, int from, int to) {
  if (!nearest.has(to)) return std::nullopt;
  int cost = nearest.compromised ? cost_of(Charge::nearest_out_of_range) : 0;
  if (rules.settings.kind == DrillKind::common_tones && from != to) cost += cost_of(Charge::no_common_tone);
  return cost;
}

/// The line goes on through the same chord in the next bar: to a tone beside the last.
std::optional<int> cost_inside(PitchClassSet tones, int from, int to) {
  if (from == to) return std::nullopt;
  int between = 0;
  for (int midi = std::min(from, to) + 1; midi < std::max(from, to); ++midi)
    if (contains(tones, pitch_class_of(midi))) ++between;
  if (between > 1) return std::nullopt;
  return between * cost_of(Charge::skipped_tone);
}

/// From the second of two enclosing tones to the tone that they enclose.
std::optional<int> cost_of_landing(const EnclosedTone& tone, int from, int to) {
  if (to % semitones_in_octave != tone.pitch_class) return std::nullopt;
  return from == to + tone.above || from == to - tone.below ? std::optional(0) : std::nullopt;
}

ConnectionKind kind_of_distance(int semitones) {
  switch (semitones) {
    case 0: return ConnectionKind::common_tone;
    case 1: return ConnectionKind::half_step;
    case 2: return ConnectionKind::whole_step;
    case 3:
    case 4: return ConnectionKind::third;
    default: return ConnectionKind::leap;
  }
}

int cost_between_figures(const DrillSettings& settings, int from, int to) {
  constexpr int whole_step = 2;
  const int distance = std::abs(to - from);
  int cost = std::max(0, distance - whole_step) * cost_of(Charge::distance);
  if (settings.connection_habits.empty()) return cost + (distance == 0 ? cost_of(Charge::repeated_tone) : 0);
  double most = 0.0;
  for (const auto& [kind, share] : settings.connection_habits) most = std::max(most, share);
  const auto habit = settings.connection_habits.find(kind_of_distance(distance));
  const double share = habit == settings.connection_habits.end() || most <= 0.0 ? 0.0 : habit->second / most;
  return cost + static_cast<int>((1.0 - share) * cost_of(Charge::unlike_model));
}

int sign(int number) { return number > 0 ? 1 : number < 0 ? -1 : 0; }

/// How two figures meet.
struct Joint {
  int way_before = 0;
  int from = 0;
  int to = 0;
  int way_after = 0;
};

int turns_at(const Joint& joint) {
  const int way = sign(joint.to - joint.from);
  const int before = joint.way_before * way < 0 ? 1 : 0;
  const int middle = way == 0 ? joint.way_before : way;
  return before + (middle * joint.way_after < 0 ? 1 : 0);
}

/// Up into a tone and up again would be a climb before the way down, unless the line breathes in between.
bool climbs_first(const DrillSegment& segment, const Joint& joint) {
  const std::vector<Slot>& slots = segment.slots;
  const bool breathes = slots.size() > 1 && slots[0].onset + slots[0].duration < slots[1].onset;
  return !breathes && joint.to > joint.from && joint.way_after > 0;
}

int joint_cost(const DrillSettings& settings, const DrillSegment& segment, const Joint& joint) {
  if (is_line(settings)) return turns_at(joint) * cost_of(Charge::turn_at_change);
  if (settings.kind == DrillKind::descents && climbs_first(segment, joint)) return cost_of(Charge::climb_first);
  return 0;
}

/// A cell over and over in one chord is what was asked for.
int sameness_cost(const DrillSettings& settings, const DrillSegment& segment) {
  return settings.kind == DrillKind::cells && segment.goes_on ? 0 : cost_of(Charge::same_figure);
}

/// A fixed shuffle of all integers, so that a seed decides ties alike on every machine (splitmix64).
std::uint64_t shuffled(std::uint64_t value) {
  value += 0x9E3779B97F4A7C15U;
  value = (value ^ (value >> 30U)) * 0xBF58476D1CE4E5B9U;
  value = (value ^ (value >> 27U)) * 0x94D049BB133111EBU;
  return value ^ (value >> 31U);
}

/// A way to stand at the end of a segment.
struct Standing {
  int cost = unreachable;
  std::uint64_t lot = 0;
  std::size_t figure = 0;
  int shape = -1;
  [[nodiscard]] bool better_than(const Standing& other) const {
    return cost != other.cost ? cost < other.cost : lot < other.lot;
  }
};

/// The figures that end on one pitch in one way: the best, and the best of another shape.
struct Ending {
  int last = 0;
  int way = 0;
  Standing best;
  Standing other;
  void add(const Standing& standing) {
    if (standing.better_than(best)) {
      if (best.shape != standing.shape) other = best;
      best = standing;
    } else if (standing.shape != best.shape && standing.better_than(other)) {
      other = standing;
    }
  }
};

std::vector<Ending> endings_of(const DrillFigures& set, std::span<const Standing> standings) {
  constexpr int ways = 3;
  std::array<int, static_cast<std::size_t>(pitches) * ways> place{};
  std::vector<Ending> endings;
  for (std::size_t i = 0; i < set.figures.size(); ++i) {
    if (standings[i].cost >= unreachable) continue;
    const DrillFigure& figure = set.figures[i];
    int& at = place.at(static_cast<std::size_t>((figure.last * ways) + figure.last_way + 1));
    if (at == 0) {
      endings.push_back({figure.last, figure.last_way, {}, {}});
      at = static_cast<int>(endings.size());
    }
    endings[static_cast<std::size_t>(at - 1)].add(standings[i]);
  }
  return endings;
}

/// How the line gets into a segment. What does not depend on the tone it comes from is looked up once, and what does on
/// that alone once a tone.
class WayIn {
 public:
  WayIn(const ConnectionRules& rules, const DrillSegment& segment) : rules_(rules), segment_(segment) {
    const Chord& chord = rules.harmony.chords[segment.chord].chord;
    const bool encloses = rules.settings.kind == DrillKind::enclosures;
    leads_ = takes_nearest(rules.settings) || encloses;
    tones_ = tone_set(chord);
    if (encloses && segment.is_change) enclosed_ = enclosed_tone(chord);
  }

  void come_from(int from) {
    from_ = from;
    if (leads_ && segment_.is_change && !enclosed_) nearest_ = nearest_in_range(from, tones_, rules_.settings);
  }

  [[nodiscard]] std::optional<int> cost_to(int to) const {
    if (enclosed_) return cost_of_landing(*enclosed_, from_, to);
    if (nearest_) return cost_at_change(rules_, *nearest_, from_, to);
    if (leads_ && segment_.goes_on) return cost_inside(tones_, from_, to);
    return cost_between_figures(rules_.settings, from_, to);
  }

 private:
  const ConnectionRules& rules_;
  const DrillSegment& segment_;
  PitchClassSet tones_ = 0;
  int from_ = 0;
  bool leads_ = false;
  std::optional<EnclosedTone> enclosed_;
  std::optional<Nearest> nearest_;
};

/// Connection costs by first pitch, one row for each ending; worked out once a segment.
std::vector<int> connection_table(const ConnectionRules& rules, const DrillSegment& segment, const DrillFigures& set,
                                  std::span<const Ending> endings) {
  std::vector<int> table(endings.size() * pitches, -1);
  std::vector<bool> wanted(pitches, false);
  for (const DrillFigure& figure : set.figures) wanted[static_cast<std::size_t>(figure.first)] = true;
  WayIn way(rules, segment);
  for (std::size_t row = 0; row < endings.size(); ++row) {
    way.come_from(endings[row].last);
    for (std::size_t to = 0; to < wanted.size(); ++to)
      if (wanted[to]) table[row * pitches + to] = way.cost_to(static_cast<int>(to)).value_or(unreachable);
  }
  return table;
}

/// The same way in is the best for both. Figures that differ in where they turn alone stand side by side.
bool begin_alike(const DrillFigure& a, const DrillFigure& b) {
  return a.first == b.first && a.first_way == b.first_way && a.shape == b.shape;
}

/// One segment of the search: where its figures stand, and from which figure of the segment before.
class Search {
 public:
  Search(const ConnectionRules& rules, std::span<const DrillSegment> segments,
         std::span<const DrillFigures* const> sets)
      : rules_(rules), segments_(segments), sets_(sets) {}

  ChosenFigures run() {
    start_anew(0, 0);
    for (std::size_t segment = 1; segment < segments_.size(); ++segment) advance(segment);
    return traced_back();
  }

 private:
  std::uint64_t lot(std::size_t segment, std::size_t figure) const {
    if (rules_.settings.seed == 0) return figure;
    return shuffled(shuffled(shuffled(rules_.settings.seed) + segment) + figure);
  }

  void start_anew(std::size_t segment, int cost) {
    const std::vector<DrillFigure>& figures = sets_[segment]->figures;
    standings_.assign(figures.size(), {});
    for (std::size_t i = 0; i < figures.size(); ++i)
      standings_[i] = {cost + figures[i].cost, lot(segment, i), i, figures[i].shape};
    from_.emplace_back(figures.size(), 0);
  }

  void advance(std::size_t segment) {
    const DrillFigures& set = *sets_[segment];
    const bool is_silent = set.figures.front().size == 0 || sets_[segment - 1]->figures.front().size == 0;
    const Standing best =
        *std::ranges::min_element(standings_, [](const Standing& a, const Standing& b) { return a.better_than(b); });
    const std::vector<Ending> endings = endings_of(*sets_[segment - 1], standings_);
    const std::vector<int> table = connection_table(rules_, segments_[segment], set, endings);
    std::vector<Standing> next(set.figures.size());
    std::vector<std::size_t> from(set.figures.size(), best.figure);
    bool reached = false;
    Standing source;
    for (std::size_t i = 0; i < set.figures.size() && !is_silent; ++i) {
      if (i == 0 || !begin_alike(set.figures[i - 1], set.figures[i]))
        source = cheapest_source(segments_[segment], set.figures[i], endings, table);
      if (source.cost >= unreachable) continue;
      reached = true;
      from[i] = source.figure;
      next[i] = {source.cost + set.figures[i].cost, lot(segment, i), i, set.figures[i].shape};
    }
    if (!reached) start_anew(segment, best.cost);
    if (!reached) {
      from_.back().assign(set.figures.size(), best.figure);
      return;
    }
    standings_ = std::move(next);
    from_.push_back(std::move(from));
  }

  Standing cheapest_source(const DrillSegment& segment, const DrillFigure& figure, std::span<const Ending> endings,
                           std::span<const int> table) const {
    Standing cheapest;
    const int same = sameness_cost(rules_.settings, segment);
    for (std::size_t row = 0; row < endings.size(); ++row) {
      const int connection = table[row * pitches + static_cast<std::size_t>(figure.first)];
      if (connection >= unreachable) continue;
      const Ending& ending = endings[row];
      const Joint joint{ending.way, ending.last, figure.first, figure.first_way};
      const int cost = connection + joint_cost(rules_.settings, segment, joint);
      for (Standing source : {ending.best, ending.other}) {
        if (source.cost >= unreachable) continue;
        source.cost += cost + (source.shape == figure.shape ? same : 0);
        if (source.better_than(cheapest)) cheapest = source;
      }
    }
    return cheapest;
  }

  ChosenFigures traced_back() const {
    const Standing best =
        *std::ranges::min_element(standings_, [](const Standing& a, const Standing& b) { return a.better_than(b); });
    ChosenFigures chosen{std::vector<std::size_t>(segments_.size()), best.cost};
    std::size_t figure = best.figure;
    for (std::size_t segment = segments_.size(); segment-- > 0;) {
      chosen.figures[segment] = figure;
      figure = from_[segment][figure];
    }
    return chosen;
  }

  const ConnectionRules& rules_;
  std::span<const DrillSegment> segments_;
  std::span<const DrillFigures* const> sets_;
  std::vector<Standing> standings_;             ///< of the figures of the last segment reached
  std::vector<std::vector<std::size_t>> from_;  ///< for each segment and figure, the figure before it
};

}  // namespace

std::optional<int> connection_cost(const ConnectionRules& rules, const DrillSegment& segment, int from, int to) {
  WayIn way(rules, segment);
  way.come_from(from);
  return way.cost_to(to);
}

std::optional<int> step_cost(const ConnectionRules& rules, const DrillSegment& segment, const DrillFigure& before,
                             const DrillFigure& after) {
  const auto connection = connection_cost(rules, segment, before.last, after.first);
  if (!connection) return std::nullopt;
  return *connection +
         joint_cost(rules.settings, segment, {before.last_way, before.last, after.first, after.first_way}) +
         (before.shape == after.shape ? sameness_cost(rules.settings, segment) : 0);
}

ChosenFigures best_figures(const ConnectionRules& rules, std::span<const DrillSegment> segments,
                           std::span<const DrillFigures* const> sets) {
  if (segments.empty()) return {};
  return Search(rules, segments, sets).run();
}

}  // namespace insideline
