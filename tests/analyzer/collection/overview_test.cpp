#include "analyzer/collection/overview.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::figure_overview;
using insideline::SoloValue;

TEST_CASE("a figure is told for the whole collection and player by player") {
  const std::vector<std::string> players{"Bo", "Al", "Bo", "Cy"};
  const std::vector<SoloValue> values{{0, 0.2}, {1, 0.9}, {2, 0.4}};  // solo 3 has none
  const auto overview = figure_overview(5, values, players);
  CHECK(overview.row == 5);
  REQUIRE(overview.spread);
  CHECK(overview.spread->count == 3);
  CHECK(overview.spread->median == Approx(0.4));
  REQUIRE(overview.groups.size() == 2);
  CHECK(overview.groups[0].name == "Al");
  CHECK(overview.groups[1].name == "Bo");
  CHECK(overview.groups[1].spread.median == Approx(0.3));
}

TEST_CASE("a solo that stands apart keeps its place in the collection") {
  std::vector<SoloValue> values;
  for (std::size_t solo = 10; solo < 20; ++solo) values.push_back({solo, static_cast<double>(solo)});
  values.push_back({77, 500.0});
  const auto overview = figure_overview(0, values, {});
  REQUIRE(overview.apart.size() == 1);
  CHECK(overview.apart.front().solo == 77);
  CHECK(overview.groups.empty());
}

TEST_CASE("a figure that no solo has has no spread") { CHECK_FALSE(figure_overview(0, {}, {}).spread); }
