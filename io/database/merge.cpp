#include "io/database/merge.hpp"

#include "io/database/collection.hpp"
#include "io/database/new_file.hpp"
#include "io/database/schema.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <deque>
#include <filesystem>
#include <iterator>
#include <span>
#include <system_error>

namespace insideline::io {
namespace {

constexpr std::size_t at_a_time = 8;  // parts; SQLite attaches ten databases at most
constexpr std::array tables_of_a_solo{"solos", "lists"};

void expect_one_way(const std::string& file, std::vector<std::string>& ways) {
  if (!std::filesystem::is_regular_file(file))
    throw DatabaseError(file + ": there is no such database; check the name");
  std::ranges::copy(Collection(file, Access::read).made_with(), std::back_inserter(ways));
  std::ranges::sort(ways);
  ways.erase(std::unique(ways.begin(), ways.end()), ways.end());
  if (ways.size() < 2) return;
  throw DatabaseError(
      fmt::format("{}: its solos were analysed in another way than the others, so they cannot be put together: {}; "
                  "survey them again with the same options",
                  file, fmt::join(ways, " / ")));
}

/// Copies the solos noted in temp.taken, in the order of their numbers, which is the order of every table: the new rows
/// are appended, or go through the tables once.
void copy_taken(Connection& connection, std::size_t parts) {
  std::vector<std::deque<Statement>> copies(parts);
  for (std::size_t part = 0; part < parts; ++part)
    for (const char* table : tables_of_a_solo)
      copies[part].emplace_back(
          connection, fmt::format("INSERT INTO main.{0} SELECT * FROM part{1}.{0} WHERE {2} = ?1", table, part,
                                  std::string_view(table) == "solos" ? "id" : "solo"));
  Statement taken(connection, "SELECT id, part FROM temp.taken ORDER BY id");
  while (taken.step())
    for (Statement& copy : copies[static_cast<std::size_t>(taken.integer(1))]) copy.bind(1, taken.integer(0)).run();
}

/// The same solo in two databases: of its places the first in order is kept, as one run over all would.
void keep_first_places(Connection& connection, std::size_t part) {
  connection.run(fmt::format(
      "UPDATE main.solos SET (path, folder, player) = (SELECT o.path, o.folder, o.player FROM part{0}.solos "
      "o WHERE o.id = main.solos.id) WHERE EXISTS (SELECT 1 FROM part{0}.solos o WHERE o.id = "
      "main.solos.id AND o.path < main.solos.path)",
      part));
}

std::vector<int> add_some(Connection& connection, std::span<const std::string> parts) {
  for (std::size_t part = 0; part < parts.size(); ++part)
    Statement(connection, fmt::format("ATTACH ?1 AS part{}", part)).bind(1, std::string_view(parts[part])).run();
  std::vector<int> added;
  {
    Transaction transaction(connection, Hold::when_needed);  // the parts are not to be held
    connection.run("CREATE TEMP TABLE taken (id INTEGER PRIMARY KEY, part INTEGER NOT NULL)");
    for (std::size_t part = 0; part < parts.size(); ++part) {
      connection.run(
          fmt::format("INSERT OR IGNORE INTO temp.taken SELECT id, {0} FROM part{0}.solos WHERE id NOT IN (SELECT id "
                      "FROM main.solos)",
                      part));
      added.push_back(static_cast<int>(connection.number("SELECT changes()")));
    }
    copy_taken(connection, parts.size());
    for (std::size_t part = 0; part < parts.size(); ++part) {
      keep_first_places(connection, part);
      connection.run(fmt::format("INSERT OR REPLACE INTO main.files SELECT * FROM part{}.files", part));
    }
    connection.run("DROP TABLE temp.taken");
    transaction.commit();
  }
  for (std::size_t part = 0; part < parts.size(); ++part) connection.run(fmt::format("DETACH part{}", part));
  return added;
}

/// Foreign keys are not looked up again: each solo comes as a whole out of a database that keeps them.
Merged add_all(Connection& connection, std::span<const std::string> parts) {
  connection.run("PRAGMA foreign_keys = OFF; PRAGMA cache_size = -8192");
  Merged merged;
  for (std::size_t first = 0; first < parts.size(); first += at_a_time) {
    const auto some = parts.subspan(first, std::min(at_a_time, parts.size() - first));
    std::ranges::copy(add_some(connection, some), std::back_inserter(merged.added));
  }
  merged.solos = static_cast<int>(connection.number("SELECT count(*) FROM main.solos"));
  return merged;
}

/// Nobody sees the file before it is whole, so that nothing needs to be undone, and indexes are made at the end.
Merged built(const std::string& file, std::span<const std::string> parts) {
  Connection connection(file);
  connection.run("PRAGMA main.journal_mode = OFF; PRAGMA main.synchronous = OFF; PRAGMA main.locking_mode = EXCLUSIVE");
  prepare_schema(connection);
  std::vector<std::string> indexes;
  std::vector<std::string> names;
  {
    Statement of_schema(connection, "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL");
    while (of_schema.step()) {
      names.push_back(of_schema.text(0));
      indexes.push_back(of_schema.text(1));
    }
  }
  for (const std::string& name : names) connection.run("DROP INDEX " + name);
  Merged merged = add_all(connection, parts);
  for (const std::string& index : indexes) connection.run(index);
  return merged;
}

void put_in_place(const std::string& from, const std::string& to) {
  const int descriptor = ::open(from.c_str(), O_RDONLY | O_CLOEXEC);
  const bool is_on_disk = descriptor >= 0 && ::fsync(descriptor) == 0;
  if (descriptor >= 0) ::close(descriptor);
  std::error_code failed;
  if (is_on_disk) std::filesystem::rename(from, to, failed);
  if (!is_on_disk || failed) throw DatabaseError(to + ": it cannot be written; is the disk full? Nothing was changed");
}

}  // namespace

Merged merge_databases(const std::vector<std::string>& parts, const std::string& merged) {
  std::vector<std::string> ways;
  for (const std::string& part : parts) expect_one_way(part, ways);
  std::error_code ignored;
  if (std::filesystem::exists(merged, ignored)) {
    Connection connection(merged);
    prepare_schema(connection);
    expect_one_way(merged, ways);
    return add_all(connection, parts);
  }
  const std::filesystem::path target(merged);
  const std::string unfinished =
      (target.parent_path() / fmt::format(".{}.{}", target.filename().string(), ::getpid())).string();
  std::filesystem::remove(unfinished, ignored);
  NewFile begun(unfinished);
  begun.holds_nothing();  // unless it is put in place, where it has another name
  Merged result = built(unfinished, parts);
  put_in_place(unfinished, merged);
  return result;
}

}  // namespace insideline::io
