#include "reports/printed/task_list.hpp"

#include "analyzer/harmony/nearest_symbols.hpp"
#include "analyzer/small_letters.hpp"
#include "reports/printed/worksheet_tasks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace insideline::reports {
namespace {

constexpr std::size_t most_own_tasks = 12;
constexpr std::size_t longest_line = 400;
constexpr std::string_view blanks = " \t\r";

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// The task of ours that the line names, in letters of any size.
std::optional<std::string_view> name_of_ours(std::string_view line) {
  const std::string small = in_small_letters(line);
  for (const std::string_view name : task_names())
    if (small == name) return name;
  return std::nullopt;
}

/// The task of ours that the line seems to mean, one letter in three at most being wrong. What ends like a sentence is
/// the teacher's own words.
std::optional<std::string_view> name_meant(std::string_view line) {
  constexpr int of_a_letter = 4;  // edit_distance() counts quarters
  constexpr int most_wrong_letters = 2;
  constexpr int letters_for_a_wrong_one = 3;
  if (name_of_ours(line) || std::string_view(".!?:").find(line.back()) != std::string_view::npos) return std::nullopt;
  const std::string small = in_small_letters(line);
  std::optional<std::string_view> nearest;
  int fewest = most_wrong_letters * of_a_letter + 1;
  for (const std::string_view name : task_names()) {
    const int wrong = edit_distance(small, name);
    if (wrong >= fewest || wrong * letters_for_a_wrong_one > static_cast<int>(line.size()) * of_a_letter) continue;
    fewest = wrong;
    nearest = name;
  }
  return nearest;
}

/// What is wrong with the line after the tasks so far; empty where nothing is.
std::string fault_of(std::string_view line, const std::vector<OwnTask>& tasks) {
  if (line.size() > longest_line)
    return fmt::format("a line of {} bytes; a task has at most {}", line.size(), longest_line);
  if (line.starts_with('=')) {
    if (tasks.empty()) return "an answer before the first task; write the task in the line above it";
    if (!tasks.back().named.empty())
      return fmt::format("'{}' has its own answer; leave this line out", tasks.back().named);
    return tasks.back().answer.empty() ? "" : "a second answer to one task; write it behind the first";
  }
  if (const auto meant = name_meant(line))
    return fmt::format("'{}' is no task of ours; write '{}', or, for words of your own, a full stop behind them", line,
                       *meant);
  return tasks.size() < most_own_tasks ? "" : fmt::format("more than {} tasks; leave some out", most_own_tasks);
}

void add_line(std::string_view line, std::vector<OwnTask>& tasks) {
  if (line.starts_with('='))
    tasks.back().answer = trimmed(line.substr(1));
  else if (const auto name = name_of_ours(line))
    tasks.push_back({std::string(*name), "", ""});
  else
    tasks.push_back({"", std::string(line), ""});
}

}  // namespace

std::variant<std::vector<OwnTask>, TaskListError> parse_task_list(std::string_view text) {
  std::vector<OwnTask> tasks;
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  std::size_t start = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string_view line = trimmed(text.substr(start, end - start));
    if (!line.empty() && !line.starts_with('#')) {
      if (std::string fault = fault_of(line, tasks); !fault.empty()) return TaskListError{start, std::move(fault)};
      add_line(line, tasks);
    }
    start = end + 1;
  }
  if (tasks.empty())
    return TaskListError{0, fmt::format("no task in it; write one a line, in your own words or one of: {}",
                                        fmt::join(task_names(), ", "))};
  return tasks;
}

}  // namespace insideline::reports
