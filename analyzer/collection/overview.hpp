// One figure over a whole collection: how it spreads, group by group, and which solos stand apart.
#pragma once

#include "analyzer/collection/distribution.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace insideline {

/// The value of one solo, which is known by its place in the collection.
struct SoloValue {
  std::size_t solo = 0;
  double value = 0.0;
};

struct GroupSpread {
  std::string name;  ///< a player or a folder
  Distribution spread;
};

struct FigureOverview {
  std::size_t row = 0;                 ///< index into figure_rows()
  std::optional<Distribution> spread;  ///< none where no solo has the figure
  std::vector<GroupSpread> groups;     ///< by name; those without a value are left out
  std::vector<SoloValue> apart;        ///< the furthest first
};

/// `groups` has one name for each solo of the collection, or is empty where nobody asks for groups.
FigureOverview figure_overview(std::size_t row, std::span<const SoloValue> values, std::span<const std::string> groups);

}  // namespace insideline
