#include "analyzer/collection/overview.hpp"

#include <map>
#include <utility>

namespace insideline {

FigureOverview figure_overview(std::size_t row, std::span<const SoloValue> values,
                               std::span<const std::string> groups) {
  FigureOverview overview;
  overview.row = row;
  if (values.empty()) return overview;
  std::vector<double> plain;
  plain.reserve(values.size());
  std::map<std::string, std::vector<double>> by_group;
  for (const SoloValue& value : values) {
    plain.push_back(value.value);
    if (!groups.empty()) by_group[groups[value.solo]].push_back(value.value);
  }
  for (const std::size_t place : standing_apart(plain)) overview.apart.push_back(values[place]);
  overview.spread = distribution_of(std::move(plain));
  for (auto& [name, its_values] : by_group) overview.groups.push_back({name, distribution_of(std::move(its_values))});
  return overview;
}

}  // namespace insideline
