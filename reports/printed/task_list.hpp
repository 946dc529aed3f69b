// A teacher's own tasks for a worksheet, one a line:
//   # about this class          a comment
//   thirds                      one of ours, by its name (task_names), in letters of any size
//   Sing the line, then play it.
//   = no answer on paper        the answer to the line before, for the key
#pragma once

#include "reports/printed/sheet.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace insideline::reports {

struct TaskListError {
  std::size_t offset = 0;  ///< bytes into the text
  std::string message;     ///< what is wrong and what to do
};

/// At most twelve tasks of at most 400 bytes each.
std::variant<std::vector<OwnTask>, TaskListError> parse_task_list(std::string_view text);

}  // namespace insideline::reports
