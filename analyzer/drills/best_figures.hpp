// The cheapest line over the whole form: an exact dynamic programme over the figures of each segment. Its state is
// where the line stands (pitch), which way it came, and the shape of the last figure.
#pragma once

#include "analyzer/drills/figures.hpp"
#include "analyzer/model/changes.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// What the costs of a connection depend on besides the two figures.
struct ConnectionRules {
  const Harmony& harmony;
  const DrillSettings& settings;
};

/// What it costs to go from the last pitch of one figure to the first of the next; none where it is not allowed.
std::optional<int> connection_cost(const ConnectionRules& rules, const DrillSegment& segment, int from, int to);

/// Everything that going from `before` to `after`, over `segment`, costs; none where it is not allowed.
std::optional<int> step_cost(const ConnectionRules& rules, const DrillSegment& segment, const DrillFigure& before,
                             const DrillFigure& after);

struct ChosenFigures {
  std::vector<std::size_t> figures;  ///< one index a segment
  int cost = 0;
};

/// The cheapest choice. Where no choice is allowed throughout, the line starts anew at that segment. Equally cheap
/// ones are told apart by `settings.seed`. `sets` run parallel to `segments`.
ChosenFigures best_figures(const ConnectionRules& rules, std::span<const DrillSegment> segments,
                           std::span<const DrillFigures* const> sets);

}  // namespace insideline
