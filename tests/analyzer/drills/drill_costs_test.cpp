#include "analyzer/drills/drill_costs.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string_view>

using insideline::Charge;
using insideline::cost_of;
using insideline::drill_costs;
using insideline::DrillCost;

TEST_CASE("every charge has one row, in its place, with a value and a reason") {
  std::set<std::string_view> names;
  std::size_t place = 0;
  for (const DrillCost& row : drill_costs()) {
    INFO(row.name);
    CHECK(static_cast<std::size_t>(row.charge) == place++);
    CHECK(row.value > 0);
    CHECK(row.reason.size() > 10);
    CHECK(names.insert(row.name).second);
    CHECK(cost_of(row.charge) == row.value);
  }
  CHECK(place == static_cast<std::size_t>(Charge::far_cell) + 1);
}

TEST_CASE("leaving the range for the nearest tone costs more than everything else in a bar") {
  int others = 0;
  for (const DrillCost& row : drill_costs())
    if (row.charge != Charge::nearest_out_of_range) others += row.value;
  CHECK(cost_of(Charge::nearest_out_of_range) > 16 * others);
}
