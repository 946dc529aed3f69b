#include "reports/survey/courses.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <map>
#include <string_view>

namespace insideline::reports {
namespace {

bool is_digit_of_name(char character) { return character >= '0' && character <= '9'; }

int whole_number(std::string_view digits) {
  int value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

/// The runs of digits of a text.
std::vector<std::string_view> digit_runs(std::string_view text) {
  std::vector<std::string_view> runs;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    while (at < text.size() && is_digit_of_name(text[at])) ++at;
    if (at > begin) runs.push_back(text.substr(begin, at - begin));
    if (at < text.size()) ++at;
  }
  return runs;
}

/// A day where three runs of 4, 2 and 2 digits follow each other with one hyphen between.
std::optional<int> day_at(std::string_view year, std::string_view month, std::string_view day) {
  if (year.size() != 4 || month.size() != 2 || day.size() != 2) return std::nullopt;
  const auto date = parsed_day({year.data(), static_cast<std::size_t>(day.data() + day.size() - year.data())});
  if (!date) return std::nullopt;
  return static_cast<int>(date->time_since_epoch().count());
}

/// True where a player has two solos at different times.
bool makes_a_line(const CollectionReport& report, const std::vector<std::optional<int>>& times) {
  std::map<std::string, int> seen;
  for (std::size_t i = 0; i < times.size(); ++i) {
    if (!times[i]) continue;
    const auto [place, is_new] = seen.emplace(report.solos[i].player, *times[i]);
    if (!is_new && place->second != *times[i]) return true;
  }
  return false;
}

std::vector<std::optional<int>> times_by(const CollectionReport& report,
                                         std::optional<int> (*time_of)(const std::string&)) {
  std::vector<std::optional<int>> times;
  for (const SurveyedSolo& solo : report.solos) times.push_back(time_of(solo.path));
  return times;
}

}  // namespace

std::optional<int> day_in_path(const std::string& path) {
  const std::vector<std::string_view> runs = digit_runs(path);
  for (std::size_t i = runs.size(); i >= 3; --i)
    if (const auto day = day_at(runs[i - 3], runs[i - 2], runs[i - 1])) return day;
  return std::nullopt;
}

std::optional<int> number_in_name(const std::string& path) {
  constexpr std::size_t most_digits = 4;
  const std::size_t slash = path.rfind('/');
  std::string_view name(path);
  if (slash != std::string::npos) name.remove_prefix(slash + 1);
  name = name.substr(0, name.rfind('.'));  // an ending such as .mp3 is no number
  const std::vector<std::string_view> runs = digit_runs(name);
  if (runs.empty() || runs.back().size() > most_digits) return std::nullopt;
  return whole_number(runs.back());
}

std::optional<CourseTimes> course_times(const CollectionReport& report) {
  std::vector<std::optional<int>> times = times_by(report, day_in_path);
  const bool days = makes_a_line(report, times);
  if (!days) times = times_by(report, number_in_name);
  if (!days && !makes_a_line(report, times)) return std::nullopt;
  std::optional<int> first;
  for (const auto& time : times)
    if (time) first = std::min(first.value_or(*time), *time);
  CourseTimes result{.axis = days ? "days since " + day_text(std::chrono::sys_days(std::chrono::days(*first)))
                                  : "number in the file's name",
                     .at = {}};
  for (const auto& time : times)
    result.at.push_back(time ? std::optional(static_cast<double>(days ? *time - *first : *time)) : std::nullopt);
  return result;
}

std::vector<PlottedLine> player_courses(const CollectionReport& report, const CourseTimes& times, std::size_t figure) {
  std::map<std::string, std::vector<Point>> points;
  for (const SoloValue& value : report.values[figure])
    if (times.at[value.solo]) points[report.solos[value.solo].player].push_back({*times.at[value.solo], value.value});
  std::vector<PlottedLine> lines;
  for (auto& [player, its] : points) {
    if (its.size() < 2) continue;
    std::ranges::stable_sort(its, {}, &Point::x);
    lines.push_back({.name = player, .points = its});
  }
  return lines;
}

}  // namespace insideline::reports
