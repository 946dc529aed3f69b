#include "analyzer/drills/guide_tone_line.hpp"

#include "analyzer/drills/aimed_figures.hpp"
#include "analyzer/drills/drill_costs.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <utility>
#include <vector>

namespace insideline {
namespace {

int distance_to_class(int midi, int pitch_class) {
  const int up = ((pitch_class - midi) % semitones_in_octave + semitones_in_octave) % semitones_in_octave;
  return std::min(up, semitones_in_octave - up);
}

int motion_between(std::span<const int> from, std::span<const int> to) {
  int motion = 0;
  for (std::size_t voice = 0; voice < std::min(from.size(), to.size()); ++voice)
    motion += std::abs(to[voice] - from[voice]);
  return motion;
}

/// What it costs to reach a figure; the least motion is always cheaper than any other.
int guide_cost(std::span<const int> from, std::span<const int> to, int least) {
  if (from.empty() || to.empty()) return 0;
  const int motion = motion_between(from, to);
  return motion * cost_of(Charge::guide_motion) + (motion > least ? cost_of(Charge::nearest_out_of_range) : 0);
}

struct Reached {
  int cost = std::numeric_limits<int>::max();
  std::size_t from = 0;
};

}  // namespace

int least_guide_motion(std::span<const int> from, const Chord& chord) {
  const std::vector<int> classes = guide_classes(chord, static_cast<int>(from.size()));
  if (from.size() == 1) {
    int least = semitones_in_octave;
    for (const int tone : classes) least = std::min(least, distance_to_class(from.front(), tone));
    return least;
  }
  const auto both = [&](int upper, int lower) {
    return distance_to_class(from.front(), upper) + distance_to_class(from.back(), lower);
  };
  return std::min(both(classes.front(), classes.back()), both(classes.back(), classes.front()));
}

ChosenFigures best_guide_tones(const ConnectionRules& rules, std::span<const DrillSegment> segments,
                               std::span<const DrillFigures* const> sets) {
  if (segments.empty()) return {};
  std::vector<std::vector<Reached>> all;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const DrillFigures& set = *sets[i];
    std::vector<Reached> reached(set.figures.size());
    const bool is_connected = segments[i].is_change || segments[i].goes_on;
    for (std::size_t source = 0; i > 0 && source < all.back().size(); ++source) {
      const auto from = sets[i - 1]->notes_of(sets[i - 1]->figures[source]);
      const int least = from.empty() ? 0 : least_guide_motion(from, rules.harmony.chords[segments[i].chord].chord);
      for (std::size_t figure = 0; figure < reached.size(); ++figure) {
        const int step = is_connected ? guide_cost(from, set.notes_of(set.figures[figure]), least) : 0;
        const int cost = all.back()[source].cost + step + set.figures[figure].cost;
        if (cost < reached[figure].cost) reached[figure] = {cost, source};
      }
    }
    for (std::size_t figure = 0; i == 0 && figure < reached.size(); ++figure)
      reached[figure].cost = set.figures[figure].cost;
    all.push_back(std::move(reached));
  }
  const auto best = std::ranges::min_element(all.back(), {}, &Reached::cost);
  ChosenFigures chosen{std::vector<std::size_t>(segments.size()), best->cost};
  auto figure = static_cast<std::size_t>(best - all.back().begin());
  for (std::size_t i = segments.size(); i-- > 0;) {
    chosen.figures[i] = figure;
    figure = all[i][figure].from;
  }
  return chosen;
}

}  // namespace insideline
