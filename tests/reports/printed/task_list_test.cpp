#include "reports/printed/task_list.hpp"

#include <catch2/catch.hpp>

#include <string>

using Catch::Matchers::Contains;
using insideline::reports::OwnTask;
using insideline::reports::parse_task_list;
using insideline::reports::TaskListError;

namespace {

std::vector<OwnTask> tasks_in(const std::string& text) {
  const auto result = parse_task_list(text);
  REQUIRE(std::holds_alternative<std::vector<OwnTask>>(result));
  return std::get<std::vector<OwnTask>>(result);
}

TaskListError fault_in(const std::string& text) {
  const auto result = parse_task_list(text);
  REQUIRE(std::holds_alternative<TaskListError>(result));
  return std::get<TaskListError>(result);
}

}  // namespace

TEST_CASE("a teacher's tasks: own words with an answer, ours by name, comments") {
  const auto tasks =
      tasks_in("\xEF\xBB\xBF# Thursday class\r\nthirds\r\n\n  Sing bar 3.  \n=  it is a fourth\nplay it\n");
  REQUIRE(tasks.size() == 3);
  CHECK(tasks[0].named == "thirds");
  CHECK(tasks[1].instruction == "Sing bar 3.");
  CHECK(tasks[1].answer == "it is a fourth");
  CHECK(tasks[2].instruction == "play it");
  CHECK(tasks[2].answer.empty());
}

TEST_CASE("a name of ours with a slip in it is not printed as words, unless it ends like a sentence") {
  CHECK(tasks_in("Arpeggios Down\n").front().named == "arpeggios down");
  for (const std::string slip : {"enclosure", "Enclosurs", "arpegios down", "guide-tones", "third"}) {
    CAPTURE(slip);
    CHECK_THAT(fault_in("Sing.\n" + slip + "\n").message, Contains("is no task of ours; write '"));
    CHECK(fault_in("Sing.\n" + slip + "\n").offset == 6);
    CHECK(tasks_in(slip + ".\n").front().instruction == slip + ".");
  }
  CHECK_THAT(fault_in("enclosurs").message, Contains("write 'enclosures'"));
  CHECK(tasks_in("Circle the thirds\nplay it\n").size() == 2);
}

TEST_CASE("a list that cannot be used says where and what to do") {
  CHECK_THAT(fault_in("= early\n").message, Contains("before the first task"));
  CHECK_THAT(fault_in("sing\n= a\n= b\n").message, Contains("second answer"));
  CHECK(fault_in("sing\n= a\n= b\n").offset == 9);
  CHECK_THAT(fault_in("thirds\n= mine\n").message, Contains("has its own answer"));
  CHECK_THAT(fault_in("# nothing\n").message, Contains("no task in it") && Contains("arpeggios down"));
  CHECK_THAT(fault_in(std::string(401, 'x')).message, Contains("401 bytes"));
  std::string many;
  for (int line = 0; line < 13; ++line) many += "sing\n";
  CHECK_THAT(fault_in(many).message, Contains("more than 12 tasks"));
}
