// The tasks of a worksheet, made from what is in the printed bars, with their answers.
#pragma once

#include "reports/printed/sheet.hpp"

#include <string>
#include <vector>

namespace insideline::reports {

struct Task {
  std::string instruction;  ///< with how many there are to find
  std::string answer;       ///< what there is, and in which bars: "4 thirds: bars 3, 5 (2), 8"
};

/// At most seven, the first always to write the degrees; none where no note is printed.
std::vector<Task> worksheet_tasks(const Sheet& sheet);

/// Bars in order with how often each occurs: "3, 5 (2), 8".
std::string bars_with_counts(const std::vector<int>& bars);

}  // namespace insideline::reports
