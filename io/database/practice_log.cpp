#include "io/database/practice_log.hpp"

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr int practice_log_id = 0x494C504C;  // PRAGMA application_id: "ILPL"
constexpr int practice_log_version = 1;      // PRAGMA user_version

constexpr const char* table = R"sql(
CREATE TABLE takes (
  content_hash TEXT PRIMARY KEY,   -- of the file of the take: 32 hexadecimal digits
  day       TEXT NOT NULL,         -- 2026-11-25
  sheet     TEXT NOT NULL,         -- its title
  take      TEXT NOT NULL,         -- name of the file
  tempo_bpm REAL,                  -- quarter notes a minute
  right_notes INTEGER NOT NULL,    -- of all_notes
  all_notes INTEGER NOT NULL,
  right_up  INTEGER NOT NULL,      -- of ascending arpeggios
  all_up    INTEGER NOT NULL,
  right_down INTEGER NOT NULL,     -- of descending arpeggios
  all_down  INTEGER NOT NULL,
  restarts  INTEGER NOT NULL,
  spread_percent REAL              -- unevenness, in percent of a quarter note
) WITHOUT ROWID;
CREATE INDEX takes_by_sheet ON takes (sheet, day);
)sql";

std::optional<double> real_or_none(const Statement& row, int column) {
  if (row.is_nothing(column)) return std::nullopt;
  return row.real(column);
}

}  // namespace

PracticeLog::PracticeLog(const std::string& file) : new_file_(file), connection_(file) {
  const Transaction of_one_moment(connection_, Hold::when_needed);
  if (is_empty()) return;
  if (connection_.number("PRAGMA application_id") != practice_log_id)
    throw DatabaseError(file + ": this is a database of something else, not a practice log; name another file");
  if (connection_.number("PRAGMA user_version") > practice_log_version)
    throw DatabaseError(file + ": a newer version of the program made this practice log; use that one");
}

bool PracticeLog::is_empty() { return connection_.number("SELECT count(*) FROM sqlite_master") == 0; }

void PracticeLog::add(const LoggedTake& take, const ContentHash& hash) {
  Transaction transaction(connection_);
  if (is_empty()) {
    connection_.run(table);
    connection_.run(
        fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};", practice_log_id, practice_log_version));
  }
  Statement insert(connection_, "INSERT OR REPLACE INTO takes VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert.bind(1, std::string_view(to_string(hash)))
      .bind(2, std::string_view(take.day))
      .bind(3, std::string_view(take.sheet))
      .bind(4, std::string_view(take.take))
      .bind(5, take.tempo_bpm)
      .bind(6, take.right.count)
      .bind(7, take.right.of)
      .bind(8, take.up.count)
      .bind(9, take.up.of)
      .bind(10, take.down.count)
      .bind(11, take.down.of)
      .bind(12, take.restarts)
      .bind(13, take.spread_percent);
  insert.run();
  transaction.commit();
}

std::vector<LoggedTake> PracticeLog::takes_of(const std::string& sheet) {
  Statement rows(
      connection_,
      "SELECT day, take, tempo_bpm, right_notes, all_notes, right_up, all_up, right_down, all_down, restarts, "
      "spread_percent FROM takes WHERE sheet = ? ORDER BY day, take, content_hash");
  rows.bind(1, std::string_view(sheet));
  const auto share = [&](int column) {
    return Share{static_cast<int>(rows.integer(column)), static_cast<int>(rows.integer(column + 1))};
  };
  std::vector<LoggedTake> takes;
  while (rows.step()) {
    LoggedTake take;
    take.day = rows.text(0);
    take.sheet = sheet;
    take.take = rows.text(1);
    take.tempo_bpm = real_or_none(rows, 2);
    take.right = share(3);
    take.up = share(5);
    take.down = share(7);
    take.restarts = static_cast<int>(rows.integer(9));
    take.spread_percent = real_or_none(rows, 10);
    takes.push_back(take);
  }
  return takes;
}

}  // namespace insideline::io
