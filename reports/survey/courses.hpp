// When each solo of a collection was played, as far as names say so, and one line a player over that time.
#pragma once

#include "reports/html/plots.hpp"
#include "reports/survey/survey_report.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline::reports {

/// The last day in a path, "2026-11-25" as days since 1970-01-01; none where there is none in the calendar.
std::optional<int> day_in_path(const std::string& path);

/// The last number in the name of the file, of up to four digits: 3 of "takes/2024/blues take 03.mid".
std::optional<int> number_in_name(const std::string& path);

/// Where the solos of a collection stand in time.
struct CourseTimes {
  std::string axis;                       ///< "days since 2026-03-01", "number in the file's name"
  std::vector<std::optional<double>> at;  ///< parallel to CollectionReport::solos
};

/// By days where two solos of a player have them, else by numbers; none where names say neither.
std::optional<CourseTimes> course_times(const CollectionReport& report);

/// One line for each player with two solos or more that have the figure and a time, by name. `figure` is an index into
/// CollectionReport::figures.
std::vector<PlottedLine> player_courses(const CollectionReport& report, const CourseTimes& times, std::size_t figure);

}  // namespace insideline::reports
