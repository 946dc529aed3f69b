#include "io/database/collection.hpp"

#include "io/database/json_rows.hpp"
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
#include <utility>

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
  connection.run("PRAGMA foreign_keys = ON; PRAGMA cache_size = -8192");
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

/// Where the rows of a list have the name, and the count if each is not one.
struct NameAndCount {
  std::size_t name = 0;
  std::optional<std::size_t> count;
};

/// Summed up by name over the lists that `sql` gives, one of each solo. Taken apart here and not by SQLite, which would
/// parse each row anew.
std::vector<NamedCount> most_frequent(Connection& connection, std::string_view sql, NameAndCount place, int most) {
  struct Sum {
    int count = 0;
    int solos = 0;
    std::int64_t last_solo = -1;
  };
  std::map<std::string, Sum, std::less<>> sums;
  Statement statement(connection, sql);
  for (std::int64_t solo = 0; statement.step(); ++solo)
    for (JsonRowReader row(statement.text_here(0)); row.next();) {
      const std::string_view name = row.value(place.name);
      auto found = sums.find(name);
      if (found == sums.end()) found = sums.emplace(name, Sum{}).first;
      Sum& sum = found->second;
      if (std::exchange(sum.last_solo, solo) != solo) ++sum.solos;
      sum.count += place.count ? static_cast<int>(row.number(*place.count).value_or(0.0)) : 1;
    }
  std::vector<NamedCount> counts;
  for (const auto& [name, sum] : sums) counts.push_back({name, sum.count, sum.solos});
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
  return std::move(known_files(std::span(&path, 1)).front());
}

std::vector<std::optional<KnownFile>> Collection::known_files(std::span<const std::string> paths) {
  std::optional<Transaction> at_once;  // else SQLite would look whether others changed the file, path by path
  if (!parts_->batch.is_open()) at_once.emplace(parts_->connection, Hold::when_needed);
  std::vector<std::optional<KnownFile>> files(paths.size());
  Statement& find = parts_->find_file;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    find.bind(1, paths[i]);
    while (find.step()) files[i] = KnownFile{find.text(0), parsed_hash(find.text(1)), find.text(2), find.text(3)};
  }
  if (at_once) at_once->commit();
  return files;
}

std::optional<StoredSolo> Collection::stored(const ContentHash& hash) {
  Statement& find = parts_->find_solo;
  find.bind(1, to_string(hash));
  std::optional<StoredSolo> solo;
  while (find.step())
    solo = StoredSolo{parsed_hash(find.text(0)), {find.text(1), find.text(2), find.text(3)}, find.text(4)};
  return solo;
}

void Collection::store(const StoredSolo& solo, const SoloTexts& texts, const std::string& stamp) {
  const auto write = [&] {
    std::vector<std::int64_t> replaced;
    Statement& find = parts_->find_replaced;
    find.bind(1, to_string(solo.hash)).bind(2, solo.place.path);
    while (find.step()) replaced.push_back(find.integer(0));
    for (const std::int64_t id : replaced) parts_->writer.drop(id);
    parts_->writer.write(solo, texts);
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

std::vector<std::vector<SoloValue>> Collection::values(std::span<const std::string_view> figures) {
  std::map<std::string_view, std::size_t> places;
  for (std::size_t i = 0; i < figures.size(); ++i) places.emplace(figures[i], i);
  std::vector<std::vector<SoloValue>> values(figures.size());
  Statement statement(parts_->connection,
                      "SELECT l.figures FROM solos s LEFT JOIN lists l ON l.solo = s.id ORDER BY s.path, s.id");
  for (std::size_t solo = 0; statement.step(); ++solo)
    for (JsonRowReader figure(statement.text_here(0)); figure.next();) {
      const auto place = places.find(figure.name());
      if (place == places.end()) continue;
      const auto part = figure.number(0);
      const auto whole = figure.number(1);
      if (part && whole && *whole > 0.0) values[place->second].push_back({.solo = solo, .value = *part / *whole});
    }
  return values;
}

std::vector<NamedCount> Collection::frequent_cells(int most) {
  return most_frequent(parts_->connection, "SELECT cells FROM lists", {.name = 0, .count = 3}, most);
}

std::vector<NamedCount> Collection::frequent_arpeggios(int most) {
  return most_frequent(parts_->connection, "SELECT arpeggios FROM lists", {.name = 2, .count = {}}, most);
}

std::vector<std::string> Collection::made_with() {
  Statement statement(parts_->connection, "SELECT DISTINCT made_with FROM solos ORDER BY made_with");
  std::vector<std::string> ways;
  while (statement.step()) ways.push_back(statement.text(0));
  return ways;
}

}  // namespace insideline::io
