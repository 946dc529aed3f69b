#include "io/database/collection.hpp"

#include "io/database/new_file.hpp"
#include "io/database/schema.hpp"
#include "io/database/solo_writer.hpp"
#include "io/database/statement.hpp"

#include <sys/vfs.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <new>

namespace insideline::io {
namespace {

/// Those of the manual page statfs(2) that reach over a network, and Lustre.
bool is_on_network_disk(const std::string& file) {
  constexpr std::array<std::uint32_t, 9> network{0x6969,     0xff534d42, 0xfe534d42, 0x517b,    0x5346414f,
                                                 0x01021997, 0x65735546, 0x00c36400, 0x0bd00bd0};
  const std::filesystem::path folder = std::filesystem::absolute(file).parent_path();
  struct statfs about {};
  return ::statfs(folder.c_str(), &about) == 0 &&
         std::ranges::find(network, static_cast<std::uint32_t>(about.f_type)) != network.end();
}

Connection opened(const std::string& file, Access access) {
  Connection connection(file, access);
  connection.run("PRAGMA foreign_keys = ON; PRAGMA cache_size = -32768");
  if (access == Access::read) {
    prepare_schema(connection, access);
    connection.run("BEGIN");
    return connection;
  }
  // The log needs memory that all who use the file share, which network disks do not have; without it others wait.
  if (!file.empty() && is_on_network_disk(file)) connection.run("PRAGMA locking_mode = EXCLUSIVE");
  prepare_schema(connection);
  return connection;
}

ContentHash parsed_hash(const std::string& text) {
  constexpr int sixteen = 16;
  ContentHash hash;
  const char* middle = text.data() + text.size() / 2;
  std::from_chars(text.data(), middle, hash.high, sixteen);
  std::from_chars(middle, text.data() + text.size(), hash.low, sixteen);
  return hash;
}

/// What `sql` gives as name, number and solo, summed up by name; its rows are in order of solo. Counted here and not by
/// SQLite, which would sort all rows: there are few names and any number of solos.
std::vector<NamedCount> most_frequent(Connection& connection, std::string_view sql, int most) {
  struct Sum {
    NamedCount count;
    std::int64_t last_solo = 0;
  };
  std::map<std::string, Sum> sums;
  Statement statement(connection, sql);
  while (statement.step()) {
    Sum& sum = sums[statement.text(0)];
    const std::int64_t solo = statement.integer(2);
    if (sum.count.solos == 0 || sum.last_solo != solo) ++sum.count.solos;
    sum.last_solo = solo;
    sum.count.count += static_cast<int>(statement.integer(1));
  }
  std::vector<NamedCount> counts;
  for (const auto& [name, sum] : sums) counts.push_back({name, sum.count.count, sum.count.solos});
  std::ranges::stable_sort(counts, std::ranges::greater{}, &NamedCount::count);
  if (counts.size() > static_cast<std::size_t>(most)) counts.resize(static_cast<std::size_t>(most));
  return counts;
}

}  // namespace

struct Collection::Parts {
  Parts(const std::string& file, Access access)
      : new_file(access == Access::write ? file : std::string{}),
        connection(opened(file, access)),
        writer(connection) {}

  /// With the log beside the file a commit needs no waiting for the disk, a killed program loses nothing that was
  /// committed, and others read the last state. To begin and to end it waits for the disk some times, which a survey
  /// that finds nothing new is spared.
  void begin_log() {
    if (has_log) return;
    connection.run("PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL; PRAGMA wal_autocheckpoint = 4000");
    has_log = true;
  }

  NewFile new_file;  ///< outlives the connection
  bool is_finished = false;
  bool has_log = false;
  Connection connection;
  SoloWriter writer;
  Statement find_file{connection,
                      "SELECT f.stamp, s.content_hash, s.made_with, s.path FROM files f JOIN solos s ON s.id = f.solo "
                      "WHERE f.path = ?1"};
  Statement find_solo{connection,
                      "SELECT content_hash, path, folder, player, made_with FROM solos WHERE content_hash = ?1"};
  Statement add_file{connection, "INSERT OR REPLACE INTO files (path, stamp, solo) VALUES (?1, ?2, ?3)"};
  Statement find_replaced{connection, "SELECT id FROM solos WHERE content_hash = ?1 OR path = ?2"};
  Statement place_solo{connection, "UPDATE solos SET path = ?2, folder = ?3, player = ?4 WHERE id = ?1"};
  Batch batch{connection};  ///< ends first
};

Collection::Collection(const std::string& file, Access access) : parts_(std::make_unique<Parts>(file, access)) {}
Collection::Collection(Collection&&) noexcept = default;

Collection::~Collection() {
  if (!parts_ || !parts_->new_file.is_new() || parts_->is_finished) return;
  try {
    if (parts_->connection.number("SELECT count(*) FROM solos") == 0) parts_->new_file.holds_nothing();
  } catch (const DatabaseError&) {
    return;  // nobody knows what is in it, so it stays
  }
}

std::optional<KnownFile> Collection::known_file(const std::string& path) {
  Statement& find = parts_->find_file;
  find.bind(1, path);
  std::optional<KnownFile> known;
  while (find.step()) known = KnownFile{find.text(0), parsed_hash(find.text(1)), find.text(2), find.text(3)};
  return known;
}

std::optional<StoredSolo> Collection::stored(const ContentHash& hash) {
  Statement& find = parts_->find_solo;
  find.bind(1, to_string(hash));
  std::optional<StoredSolo> solo;
  while (find.step())
    solo = StoredSolo{parsed_hash(find.text(0)), {find.text(1), find.text(2), find.text(3)}, find.text(4)};
  return solo;
}

void Collection::store(const StoredSolo& solo, const SoloRows& rows, const std::string& stamp) {
  const auto write = [&] {
    std::vector<std::int64_t> replaced;
    Statement& find = parts_->find_replaced;
    find.bind(1, to_string(solo.hash)).bind(2, solo.place.path);
    while (find.step()) replaced.push_back(find.integer(0));
    for (const std::int64_t id : replaced) parts_->writer.drop(id);
    parts_->writer.write(solo, rows);
    parts_->add_file.bind(1, solo.place.path).bind(2, stamp).bind(3, solo_id(solo.hash)).run();
  };
  parts_->begin_log();
  try {
    parts_->batch.add(write);
  } catch (const std::bad_alloc&) {  // with it the solos before it are gone, so this is not about one solo
    throw DatabaseError(parts_->connection.name() + ": there is not enough memory to store a solo; use fewer jobs");
  }
}

void Collection::remember(const std::string& path, const std::string& stamp, const ContentHash& hash) {
  parts_->begin_log();
  parts_->add_file.bind(1, path).bind(2, stamp).bind(3, solo_id(hash)).run();
}

void Collection::move(const ContentHash& hash, const SoloPlace& place) {
  parts_->begin_log();
  parts_->place_solo.bind(1, solo_id(hash)).bind(2, place.path).bind(3, place.folder).bind(4, place.player).run();
}

void Collection::finish() {
  parts_->batch.commit();
  parts_->connection.run_if_free("PRAGMA journal_mode = DELETE");
  parts_->connection.run("BEGIN");
  parts_->is_finished = true;
}

Totals Collection::totals() {
  Statement statement(parts_->connection,
                      "SELECT count(*), count(DISTINCT player), count(DISTINCT folder), total(bars), total(note_count) "
                      "FROM solos");
  Totals totals;
  while (statement.step())
    totals = {.solos = static_cast<int>(statement.integer(0)),
              .players = static_cast<int>(statement.integer(1)),
              .folders = static_cast<int>(statement.integer(2)),
              .bars = static_cast<int>(statement.integer(3)),
              .notes = static_cast<int>(statement.integer(4))};
  return totals;
}

std::vector<ListedSolo> Collection::solos() {
  Statement statement(parts_->connection,
                      "SELECT path, folder, player, title, bars, note_count FROM solos ORDER BY path, id");
  std::vector<ListedSolo> listed;
  while (statement.step())
    listed.push_back({.place = {statement.text(0), statement.text(1), statement.text(2)},
                      .title = statement.text(3),
                      .bars = static_cast<int>(statement.integer(4)),
                      .notes = static_cast<int>(statement.integer(5))});
  return listed;
}

std::vector<SoloValue> Collection::values(const std::string& figure) {
  Statement statement(parts_->connection,
                      "SELECT f.value FROM solos s LEFT JOIN figures f ON f.solo = s.id AND f.figure = ?1 "
                      "ORDER BY s.path, s.id");
  statement.bind(1, figure);
  std::vector<SoloValue> values;
  for (std::size_t solo = 0; statement.step(); ++solo)
    if (!statement.is_nothing(0)) values.push_back({.solo = solo, .value = statement.real(0)});
  return values;
}

std::vector<NamedCount> Collection::frequent_cells(int most) {
  return most_frequent(parts_->connection, "SELECT degrees, count, solo FROM cells ORDER BY solo", most);
}

std::vector<NamedCount> Collection::frequent_arpeggios(int most) {
  return most_frequent(parts_->connection, "SELECT shape, 1, solo FROM arpeggios ORDER BY solo", most);
}

std::vector<std::string> Collection::made_with() {
  Statement statement(parts_->connection, "SELECT DISTINCT made_with FROM solos ORDER BY made_with");
  std::vector<std::string> ways;
  while (statement.step()) ways.push_back(statement.text(0));
  return ways;
}

}  // namespace insideline::io
