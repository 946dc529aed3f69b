#include "reports/survey/courses.hpp"

#include "analyzer/measures/figure_table.hpp"

#include <optional>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::reports::CollectionReport;
using insideline::reports::course_times;
using insideline::reports::day_in_path;
using insideline::reports::number_in_name;
using insideline::reports::player_courses;

namespace {

struct NamedSolo {
  std::string player;
  std::string path;
  double value;
};

/// One figure of some solos.
CollectionReport collection_of(const std::vector<NamedSolo>& solos) {
  CollectionReport report;
  report.figures.resize(1);
  report.values.emplace_back();
  for (const NamedSolo& solo : solos) {
    report.values.front().push_back({report.solos.size(), solo.value});
    report.solos.push_back(
        {.path = solo.path, .folder = "", .player = solo.player, .title = "", .bars = 8, .notes = 9});
  }
  return report;
}

}  // namespace

TEST_CASE("the day of a solo is the last one in its path that is in the calendar") {
  CHECK(day_in_path("1970-01-02.mid") == 1);
  CHECK(day_in_path("term 2026-03-01/Anke/2026-03-02 blues.mid") == day_in_path("2026-03-02"));
  CHECK(*day_in_path("2026-03-01") - *day_in_path("2026-02-28") == 1);
  CHECK(*day_in_path("2024-03-01") - *day_in_path("2024-02-28") == 2);
  for (const char* none : {"", "blues.mid", "2026-13-01.mid", "2026-02-30.mid", "12026-01-01.mid", "2026-1-1.mid",
                           "2026_01_01.mid", "20260101.mid"})
    CHECK_FALSE(day_in_path(none));
}

TEST_CASE("the number of a take is the last one in the name of its file") {
  CHECK(number_in_name("takes/2024/blues take 03.mid") == 3);
  CHECK(number_in_name("12.musicxml") == 12);
  CHECK_FALSE(number_in_name("takes/2024/blues.mid"));
  CHECK_FALSE(number_in_name("blues 123456.mid"));
}

TEST_CASE("where days are known each player has a line over the days") {
  const CollectionReport report = collection_of({{"Anke", "a/2026-03-11 2.mid", 0.5},
                                                 {"Anke", "a/2026-03-01 1.mid", 0.25},
                                                 {"Bjarne", "b/2026-03-04.mid", 0.75},
                                                 {"Carla", "c/one.mid", 0.75},
                                                 {"Carla", "c/two.mid", 0.75}});
  const auto times = course_times(report);
  REQUIRE(times);
  CHECK(times->axis == "days since 2026-03-01");
  const auto lines = player_courses(report, *times, 0);
  REQUIRE(lines.size() == 1);  // Bjarne has one solo, Carla's have no day
  CHECK(lines.front().name == "Anke");
  REQUIRE(lines.front().points.size() == 2);
  CHECK(lines.front().points[0].x == 0.0);
  CHECK(lines.front().points[0].y == 0.25);
  CHECK(lines.front().points[1].x == 10.0);
}

TEST_CASE("where no days are known the numbers of the takes are the order") {
  const auto times = course_times(collection_of({{"Anke", "a/take 2.mid", 0.5}, {"Anke", "a/take 7.mid", 0.25}}));
  REQUIRE(times);
  CHECK(times->axis == "number in the file's name");
  CHECK(times->at == std::vector<std::optional<double>>{2.0, 7.0});
}

TEST_CASE("names without an order make no lines") {
  CHECK_FALSE(course_times(collection_of({{"Anke", "a/x.mid", 0.5}, {"Anke", "a/y.mid", 0.25}})));
  CHECK_FALSE(course_times(collection_of({{"Anke", "a/take 1.mid", 0.5}, {"Bjarne", "b/take 2.mid", 0.25}})));
  CHECK_FALSE(course_times({}));
}
