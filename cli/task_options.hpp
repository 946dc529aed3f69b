// What a handout shows and asks for: --show, --tasks, --answer-staff, --one-page.
#pragma once

#include "reports/printed/sheet.hpp"
#include "reports/report.hpp"

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace insideline::cli {

struct TaskOptions {
  std::optional<std::string> tasks_file;
};

/// --worksheet and --key must be options of `command` already; both must live as long as it.
void add_task_options(CLI::App& command, TaskOptions& options, reports::HandoutOptions& sheet);

/// Puts the teacher's tasks on the sheet. Throws CLI::ValidationError where there is no place for them, io::ReadError
/// where the list cannot be read.
void take_tasks(const TaskOptions& options, reports::HandoutOptions& sheet);

/// Throws io::ReadError where the sheet is to be one page and does not fit.
void check_page(const reports::Report& report, const reports::HandoutOptions& sheet);

/// A warning for each named task that these bars have nothing for.
std::vector<std::string> task_warnings(const reports::Report& report, const reports::HandoutOptions& sheet);

}  // namespace insideline::cli
