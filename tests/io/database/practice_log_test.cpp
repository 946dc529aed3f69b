#include "io/database/practice_log.hpp"

#include "tests/support/own_folder.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::LoggedTake;
using insideline::Share;
using insideline::io::content_hash;
using insideline::io::PracticeLog;

namespace {

LoggedTake take_of(const std::string& day, const std::string& sheet, int right) {
  LoggedTake take;
  take.day = day;
  take.sheet = sheet;
  take.take = "take " + day + ".mid";
  take.tempo_bpm = 96.5;
  take.right = {right, 64};
  take.down = {right / 2, 32};
  take.restarts = 1;
  return take;
}

}  // namespace

TEST_CASE("the log gives back the takes of a sheet, the oldest first, with all they have") {
  PracticeLog log("");
  const LoggedTake later = take_of("2026-11-25", "O'Quay \"Steps\"", 60);
  const LoggedTake earlier = take_of("2026-11-20", "O'Quay \"Steps\"", 50);
  log.add(later, content_hash("later"));
  log.add(earlier, content_hash("earlier"));
  log.add(take_of("2026-11-21", "Ropewalk", 10), content_hash("other"));
  CHECK(log.takes_of("O'Quay \"Steps\"") == std::vector<LoggedTake>{earlier, later});
  CHECK(log.takes_of("nothing").empty());
}

TEST_CASE("the same take is in the log once") {
  PracticeLog log("");
  log.add(take_of("2026-11-25", "Ropewalk", 60), content_hash("a"));
  log.add(take_of("2026-11-25", "Ropewalk", 61), content_hash("a"));
  const auto takes = log.takes_of("Ropewalk");
  REQUIRE(takes.size() == 1);
  CHECK(takes[0].right == Share{61, 64});
}

TEST_CASE("a database of something else is not taken for a practice log") {
  const insideline::tests::OwnFolder folder;
  const std::string file = folder.file("birds.db");
  {
    insideline::io::Connection other(file);
    other.run("CREATE TABLE birds (name TEXT)");
  }
  CHECK_THROWS_WITH(PracticeLog(file), Catch::Contains("not a practice log"));
}
