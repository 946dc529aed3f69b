// Any bytes are read as a teacher's tasks or refused with a place in the text.
#include "reports/printed/task_list.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <variant>
#include <vector>

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  namespace reports = insideline::reports;
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text.push_back(static_cast<char>(data[i]));
  const auto tasks = reports::parse_task_list(text);
  if (const auto* const error = std::get_if<reports::TaskListError>(&tasks)) {
    require(error->offset <= text.size() && !error->message.empty());
  } else {
    constexpr std::size_t most_tasks = 12;
    const std::size_t read = std::get<std::vector<reports::OwnTask>>(tasks).size();
    require(read >= 1 && read <= most_tasks);
  }
  return 0;
}
