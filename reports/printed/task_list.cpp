#include "reports/printed/task_list.hpp"

#include "reports/printed/worksheet_tasks.hpp"

#include <fmt/format.h>

#include <algorithm>

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

bool is_name_of_ours(std::string_view line) {
  const auto names = task_names();
  return std::ranges::find(names, line) != names.end();
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
  return tasks.size() < most_own_tasks ? "" : fmt::format("more than {} tasks; leave some out", most_own_tasks);
}

void add_line(std::string_view line, std::vector<OwnTask>& tasks) {
  if (line.starts_with('='))
    tasks.back().answer = trimmed(line.substr(1));
  else if (is_name_of_ours(line))
    tasks.push_back({std::string(line), "", ""});
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
