// The tasks of a worksheet, chosen from what is in the printed bars, with their answers. Counts, answers and what the
// key draws come from one list of places, so that they agree.
#pragma once

#include "reports/printed/marks.hpp"
#include "reports/printed/sheet.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::reports {

struct Task {
  std::string instruction;  ///< with how many there are to find
  std::string answer;       ///< how many, and where: "3 thirds: bars 3 (1), 5 (2, 4&)"
  Marks marks;              ///< what the key draws
  bool asks_for_chords = false;
};

/// At most seven, the first to write the degrees; without chord symbols on the sheet, only what can be found without
/// them. The teacher's own list takes their place where there is one. None where no note is printed.
std::vector<Task> worksheet_tasks(const Sheet& sheet);

/// What the key of these tasks draws.
Marks marks_of(const std::vector<Task>& tasks);

/// Those of `options.tasks` that name a task of ours for which there is nothing in the printed bars, which must be
/// there.
std::vector<std::string> tasks_without_finds(const Report& report, const HandoutOptions& options);

/// The names by which a list of tasks calls ours: "degrees", "thirds", "arpeggios down".
std::vector<std::string_view> task_names();

}  // namespace insideline::reports
