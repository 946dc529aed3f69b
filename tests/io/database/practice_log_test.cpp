#include "io/database/practice_log.hpp"

#include "tests/support/melody.hpp"
#include "tests/support/own_folder.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::LoggedTake;
using insideline::Share;
using insideline::io::Access;
using insideline::io::Connection;
using insideline::io::content_hash;
using insideline::io::practice_log_step;
using insideline::io::PracticeLog;
using insideline::io::sheet_id;
using insideline::tests::OwnFolder;
using insideline::tests::solo_from;

namespace {

LoggedTake take_of(const std::string& day, const std::string& sheet, int right) {
  LoggedTake take;
  take.player = "Anke";
  take.day = day;
  take.sheet = sheet;
  take.sheet_id = "id of " + sheet;
  take.take = "take " + day + ".mid";
  take.tempo_bpm = 96.5;
  take.right = {right, 64};
  take.down = {right / 2, 32};
  take.restarts = 1;
  return take;
}

/// A log as the first version of the program made it, with takes of two days.
std::string old_log(const OwnFolder& folder) {
  std::string file = folder.file("old.log");
  Connection old(file);
  old.run("PRAGMA application_id = 1229738060; PRAGMA user_version = 1");
  old.run(practice_log_step(0));
  old.run(
      "INSERT INTO takes VALUES ('b', '2026-11-21', 'Quay Steps (a.mid)', 'two.mid', NULL, 60, 64, 0, 0, 30, 32, 0, "
      "2.5);"
      "INSERT INTO takes VALUES ('a', '2026-11-20', 'Quay Steps (a.mid)', 'one.mid', 72, 50, 64, 3, 4, 0, 0, 2, NULL)");
  return file;
}

}  // namespace

TEST_CASE("the log gives back the takes of a sheet, the oldest first, with all they have") {
  PracticeLog log("");
  LoggedTake later = take_of("2026-11-25", "O'Quay \"Steps\"", 60);
  later.whole = false;
  later.spread_percent = 3.5;
  later.added = 2;
  later.tempo_strays_percent = 4.25;
  later.tempo_jumps = 1;
  const LoggedTake earlier = take_of("2026-11-20", "O'Quay \"Steps\"", 50);
  log.add(later, content_hash("later"));
  log.add(earlier, content_hash("earlier"));
  log.add(take_of("2026-11-21", "Ropewalk", 10), content_hash("other"));
  CHECK(log.takes_of("Anke", later.sheet_id) == std::vector<LoggedTake>{earlier, later});
  CHECK(log.takes_of("Anke", "nothing").empty());
  CHECK(log.takes().size() == 3);
}

TEST_CASE("takes of one day stay in the order they came") {
  PracticeLog log("");
  for (const int right : {10, 30, 20})
    log.add(take_of("2026-11-25", "Ropewalk", right), content_hash(std::to_string(right)));
  const auto takes = log.takes();
  REQUIRE(takes.size() == 3);
  CHECK(takes[0].right.count == 10);
  CHECK(takes[1].right.count == 30);
  CHECK(takes[2].right.count == 20);
}

TEST_CASE("the same take is in the log once for each player") {
  PracticeLog log("");
  log.add(take_of("2026-11-25", "Ropewalk", 60), content_hash("a"));
  log.add(take_of("2026-11-25", "Ropewalk", 61), content_hash("a"));
  const auto takes = log.takes_of("Anke", "id of Ropewalk");
  REQUIRE(takes.size() == 1);
  CHECK(takes[0].right == Share{61, 64});
  LoggedTake of_another = take_of("2026-11-25", "Ropewalk", 61);
  of_another.player = "Bjarne";
  log.add(of_another, content_hash("a"));
  CHECK(log.takes().size() == 2);
  CHECK(log.takes_of("Bjarne", "id of Ropewalk") == std::vector<LoggedTake>{of_another});
}

TEST_CASE("a player's name comes back as it was given") {
  const auto name = GENERATE(as<std::string>{}, "O'Brine", "Red \"the Rope\" O'Brine", "two\nlines",
                             "'); DROP TABLE takes; --", "Åse Ødegård", "%s %n", "");
  PracticeLog log("");
  LoggedTake take = take_of("2026-11-25", "Ropewalk", 60);
  take.player = name;
  log.add(take, content_hash("a"));
  CHECK(log.takes_of(name, take.sheet_id) == std::vector<LoggedTake>{take});
}

TEST_CASE("a sheet is known by its notes: not by its title, its length of notes or where it begins") {
  const auto sheet = solo_from("C4:1 E4:1 G4:1 B4:1 | C5:4");
  auto renamed = sheet;
  renamed.title = "Another title";
  CHECK(sheet_id(renamed) == sheet_id(sheet));
  CHECK(sheet_id(solo_from("r:4 | C4:1 E4:1 G4:1 B4:1/2 r:1/2 | C5:2 r:2")) == sheet_id(sheet));
  CHECK(sheet_id(solo_from("C4:1 E4:1 G4:1 B4:1 | B4:0 C5:4")) == sheet_id(sheet));  // grace notes are not judged
  CHECK(sheet_id(solo_from("C4:1 E4:1 G4:1 Bb4:1 | C5:4")) != sheet_id(sheet));
  CHECK(sheet_id(solo_from("C4:1 E4:1 G4:3/2 B4:1/2 | C5:4")) != sheet_id(sheet));
  CHECK(sheet_id(solo_from("C4:1 E4:1 G4:1 B4:1")) != sheet_id(sheet));
}

TEST_CASE("an old log is brought up to date and keeps its takes") {
  const OwnFolder folder;
  const std::string file = old_log(folder);
  PracticeLog log(file, Access::read);
  const auto takes = log.takes();
  REQUIRE(takes.size() == 2);
  CHECK(takes[0].take == "one.mid");
  CHECK(takes[0].tempo_bpm == 72.0);
  CHECK(takes[0].up == Share{3, 4});
  CHECK(takes[0].restarts == 2);
  CHECK_FALSE(takes[0].whole);
  CHECK_FALSE(takes[0].added);
  CHECK_FALSE(takes[0].tempo_strays_percent);
  CHECK_FALSE(takes[0].tempo_jumps);
  CHECK(takes[1].right == Share{60, 64});
  CHECK(takes[1].player.empty());
  CHECK(takes[1].sheet == "Quay Steps (a.mid)");
  CHECK(takes[1].sheet_id.empty());
  CHECK(takes[1].spread_percent == 2.5);
  CHECK(Connection(file).number("PRAGMA user_version") == insideline::io::practice_log_version);
}

TEST_CASE("takes of an old log go with the first sheet of their name") {
  const OwnFolder folder;
  PracticeLog log(old_log(folder));
  LoggedTake take = take_of("2026-11-25", "Quay Steps (a.mid)", 60);
  take.player = "";
  log.add(take, content_hash("new"));
  CHECK(log.takes_of("", take.sheet_id).size() == 3);
  take.sheet_id = "of other notes";
  log.add(take, content_hash("other"));
  CHECK(log.takes_of("", "of other notes").size() == 1);
}

TEST_CASE("what is no practice log of ours is refused and left as it is") {
  const OwnFolder folder;
  const std::string file = folder.file("birds.db");
  const auto [sql, complaint] = GENERATE(table<std::string, std::string>({
      {"CREATE TABLE birds (name TEXT)", "not a practice log"},
      {"CREATE TABLE takes (day TEXT); PRAGMA application_id = 1229738060; PRAGMA user_version = 4",
       "a newer version of insideline made this practice log (version 4, this program knows 3)"},
      {"PRAGMA application_id = 1229738060; CREATE TABLE takes (day TEXT)", "not a practice log"},
  }));
  Connection(file).run(sql);
  const auto tables = Connection(file).number("PRAGMA schema_version");
  CHECK_THROWS_WITH(PracticeLog(file), Contains(file) && Contains(complaint));
  CHECK_THROWS_WITH(PracticeLog(file, Access::read), Contains(complaint));
  CHECK(Connection(file).number("PRAGMA schema_version") == tables);
}

TEST_CASE("reading makes no log out of an empty file, and none where there is no file") {
  const OwnFolder folder;
  const std::string empty = folder.write("empty.log", "").string();
  CHECK_THROWS_WITH(PracticeLog(empty, Access::read), Contains("it is empty"));
  CHECK(std::filesystem::file_size(empty) == 0);
  CHECK_THROWS_AS(PracticeLog(folder.file("none.log"), Access::read), insideline::io::DatabaseError);
  CHECK_FALSE(std::filesystem::exists(folder.file("none.log")));
}

TEST_CASE("numbers that no take can have are named and not counted") {
  const auto damage = GENERATE(as<std::string>{}, "right_notes = 65", "all_notes = -1", "restarts = 99999999999",
                               "tempo_bpm = 9e999", "tempo_bpm = -3");
  const OwnFolder folder;
  const std::string file = folder.file("takes.log");
  PracticeLog(file).add(take_of("2026-11-25", "Ropewalk", 60), content_hash("a"));
  Connection(file).run("UPDATE takes SET " + damage);
  CHECK_THROWS_WITH(PracticeLog(file).takes(), Contains("the take take 2026-11-25.mid of 2026-11-25 has "));
}
