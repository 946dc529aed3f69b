#include "cli/task_options.hpp"

#include "io/file_bytes.hpp"
#include "io/read_result.hpp"
#include "io/source_text.hpp"
#include "reports/printed/handout.hpp"
#include "reports/printed/task_list.hpp"
#include "reports/printed/worksheet_tasks.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string_view>
#include <utility>
#include <variant>

namespace insideline::cli {
namespace {

constexpr std::array<std::pair<std::string_view, reports::Topic>, 7> topic_names{{
    {"degrees", reports::Topic::degrees},
    {"arpeggios", reports::Topic::arpeggios},
    {"connections", reports::Topic::connections},
    {"guide-tones", reports::Topic::guide_tones},
    {"tensions", reports::Topic::tensions},
    {"non-chord-tones", reports::Topic::non_chord_tones},
    {"outside", reports::Topic::outside},
}};

/// "arpeggios,tensions"; empty for anything else.
std::set<reports::Topic> parsed_topics(std::string_view text) {
  std::set<reports::Topic> topics;
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find(',', start), text.size());
    const std::string_view name = text.substr(start, end - start);
    const auto* const found = std::ranges::find(topic_names, name, &std::pair<std::string_view, reports::Topic>::first);
    if (found == topic_names.end()) return {};
    topics.insert(found->second);
    start = end + 1;
  }
  return topics;
}

std::string no_topics(const std::string& text) {
  if (!parsed_topics(text).empty()) return {};
  std::string names;
  for (const auto& [name, topic] : topic_names) names += fmt::format("{}{}", names.empty() ? "" : ", ", name);
  return fmt::format("'{}' is not among what a sheet can show; choose from {}, with commas between", text, names);
}

}  // namespace

void add_task_options(CLI::App& command, TaskOptions& options, reports::HandoutOptions& sheet) {
  static const std::map<std::string, reports::AnswerStaff> staves{{"lines", reports::AnswerStaff::under_each_line},
                                                                  {"end", reports::AnswerStaff::at_the_end}};
  const std::string group = "What is on the sheet";
  command
      .add_option_function<std::string>(
          "--show", [&sheet](const std::string& text) { sheet.topics = parsed_topics(text); },
          "Mark these only and leave the rest plain: degrees, arpeggios, connections, guide-tones, tensions, "
          "non-chord-tones, outside, or several with commas between")
      ->check(CLI::Validator(no_topics, ""))
      ->option_text("TOPICS")
      ->excludes("--worksheet")
      ->excludes("--key")
      ->group(group);
  command
      .add_option(
          "--tasks", options.tasks_file,
          "A text file with your own tasks for --worksheet and --key, one a line; what ends with a full stop is "
          "never taken for one of ours")
      ->option_text("FILE")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--answer-staff", [&sheet](const std::string& word) { sheet.answer_staff = staves.at(word); },
          "Empty staves to write on: under the lines, or at the end")
      ->check(CLI::IsMember({"lines", "end"}))
      ->option_text("lines|end")
      ->group(group);
  command.add_flag("--one-page", sheet.one_page, "All of it on one page, set smaller")->group(group);
}

void take_tasks(const TaskOptions& options, reports::HandoutOptions& sheet) {
  if (!options.tasks_file) return;
  if (sheet.kind == reports::SheetKind::annotated)
    throw CLI::ValidationError("--tasks", "tasks stand on a worksheet and its key only; add --worksheet or --key");
  constexpr std::size_t most_bytes = 64 * 1024;
  const std::string text = io::read_bytes(*options.tasks_file, most_bytes);
  auto tasks = reports::parse_task_list(text);
  if (const auto* error = std::get_if<reports::TaskListError>(&tasks))
    throw io::ReadError(io::place_in(*options.tasks_file, text, error->offset), error->message);
  sheet.tasks = std::get<std::vector<reports::OwnTask>>(std::move(tasks));
}

void check_page(const reports::Report& report, const reports::HandoutOptions& sheet) {
  if (!sheet.one_page) return;
  const bool is_double = sheet.answer_staff == reports::AnswerStaff::under_each_line;
  const std::size_t most = is_double ? reports::most_double_lines_on_one_page : reports::most_lines_on_one_page;
  const std::size_t lines = reports::lines_of_music(report, sheet);
  if (lines > most)
    throw io::ReadError(
        io::place_of(report.source.solo_file),
        fmt::format("it makes {} lines of music, and one page holds {}; print a part of it with --bars, "
                    "or leave --one-page out",
                    lines, most));
}

std::vector<std::string> task_warnings(const reports::Report& report, const reports::HandoutOptions& sheet) {
  std::vector<std::string> warnings;
  for (const std::string& name : reports::tasks_without_finds(report, sheet))
    warnings.push_back(fmt::format("the task '{}' is left out: there is nothing to find for it in these bars", name));
  return warnings;
}

}  // namespace insideline::cli
