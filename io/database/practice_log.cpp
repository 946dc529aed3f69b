#include "io/database/practice_log.hpp"

#include <fmt/format.h>

#include <array>
#include <limits>

namespace insideline::io {
namespace {

constexpr int practice_log_id = 0x494C504C;  // PRAGMA application_id: "ILPL"

constexpr const char* first_takes = R"sql(
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

// A log for several players, with sheets known by what there is to play.
constexpr const char* players_and_sheets = R"sql(
ALTER TABLE takes RENAME TO takes_before;
CREATE TABLE takes (
  number    INTEGER PRIMARY KEY,   -- in the order they came into the log
  content_hash TEXT NOT NULL,      -- of the file of the take: 32 hexadecimal digits
  player    TEXT NOT NULL,         -- as given; empty where nobody was named
  sheet_id  TEXT NOT NULL,         -- what there is to play: 32 hexadecimal digits; empty in takes of an old log
  day       TEXT NOT NULL,         -- 2026-11-25
  sheet     TEXT NOT NULL,         -- its title and file
  take      TEXT NOT NULL,         -- name of the file
  tempo_bpm REAL,                  -- quarter notes a minute
  right_notes INTEGER NOT NULL,    -- of all_notes
  all_notes INTEGER NOT NULL,
  right_up  INTEGER NOT NULL,      -- of ascending arpeggios
  all_up    INTEGER NOT NULL,
  right_down INTEGER NOT NULL,     -- of descending arpeggios
  all_down  INTEGER NOT NULL,
  restarts  INTEGER NOT NULL,
  whole     INTEGER,               -- 1: the whole sheet was played; nothing where nobody looked
  spread_percent REAL,             -- unevenness, in percent of a quarter note
  UNIQUE (content_hash, player, sheet_id)
);
INSERT INTO takes
  SELECT NULL, content_hash, '', '', day, sheet, take, tempo_bpm, right_notes, all_notes, right_up, all_up, right_down,
         all_down, restarts, NULL, spread_percent
  FROM takes_before ORDER BY day, take, content_hash;
DROP TABLE takes_before;
CREATE INDEX takes_by_player ON takes (player, sheet_id, day);
)sql";

// What a whole verdict needs beside the notes; nothing in takes from before.
constexpr const char* tempo_and_added_notes = R"sql(
ALTER TABLE takes ADD COLUMN added INTEGER;               -- notes that the sheet does not have
ALTER TABLE takes ADD COLUMN tempo_strays_percent REAL;   -- how far two bars lie from the tempo of the take at most
ALTER TABLE takes ADD COLUMN tempo_jumps INTEGER;
)sql";

constexpr std::array<const char*, practice_log_version> log_steps{first_takes, players_and_sheets,
                                                                  tempo_and_added_notes};

constexpr const char* of_a_take =
    "SELECT player, day, sheet, sheet_id, take, tempo_bpm, right_notes, all_notes, right_up, all_up, right_down, "
    "all_down, restarts, whole, spread_percent, added, tempo_strays_percent, tempo_jumps FROM takes ";

/// Numbers that no take can have are those of a damaged log, or of somebody who wrote into it by hand.
template <typename Number>
Number expect_possible(Number number, Number largest, const Statement& row, const std::string& file) {
  if (number >= Number{0} && number <= largest) return number;
  throw DatabaseError(fmt::format("{}: the take {} of {} has {} where 0 to {} can be; take it out or put it right",
                                  file, row.text(4), row.text(1), number, largest));
}

int small_number(const Statement& row, int column, std::int64_t largest, const std::string& file) {
  return static_cast<int>(expect_possible(row.integer(column), largest, row, file));
}

std::optional<double> real_or_none(const Statement& row, int column, const std::string& file) {
  constexpr double largest = 1e6;
  if (row.is_nothing(column)) return std::nullopt;
  return expect_possible(row.real(column), largest, row, file);
}

std::optional<int> count_or_none(const Statement& row, int column, const std::string& file) {
  constexpr std::int64_t largest = 1'000'000'000;
  if (row.is_nothing(column)) return std::nullopt;
  return small_number(row, column, largest, file);
}

LoggedTake take_in(const Statement& row, const std::string& file) {
  constexpr std::int64_t any = std::numeric_limits<int>::max();
  const auto share = [&](int column) {
    const int of = small_number(row, column + 1, any, file);
    return Share{small_number(row, column, of, file), of};
  };
  LoggedTake take;
  take.player = row.text(0);
  take.day = row.text(1);
  take.sheet = row.text(2);
  take.sheet_id = row.text(3);
  take.take = row.text(4);
  take.tempo_bpm = real_or_none(row, 5, file);
  take.right = share(6);
  take.up = share(8);
  take.down = share(10);
  take.restarts = small_number(row, 12, any, file);
  if (!row.is_nothing(13)) take.whole = row.integer(13) != 0;
  take.spread_percent = real_or_none(row, 14, file);
  take.added = count_or_none(row, 15, file);
  take.tempo_strays_percent = real_or_none(row, 16, file);
  take.tempo_jumps = count_or_none(row, 17, file);
  return take;
}

std::vector<LoggedTake> takes_in(Statement& rows, const std::string& file) {
  std::vector<LoggedTake> takes;
  while (rows.step()) takes.push_back(take_in(rows, file));
  return takes;
}

}  // namespace

const char* practice_log_step(int from) { return log_steps.at(static_cast<std::size_t>(from)); }

std::string sheet_id(const Solo& sheet) {
  std::string text;
  std::optional<Beats> first;
  for (const Note& note : sheet.notes) {
    if (note.grace) continue;
    if (!first) first = note.onset;
    const Beats onset = note.onset - *first;
    text += fmt::format("{}/{} {}\n", onset.numerator(), onset.denominator(), midi_number(note.pitch));
  }
  return to_string(content_hash(text));
}

PracticeLog::PracticeLog(const std::string& file, Access access) : new_file_(file), connection_(file, access) {
  const int version = [&] {
    const Transaction of_one_moment(connection_, Hold::when_needed);
    return stored_version();
  }();
  if (version == 0 && access == Access::read)
    throw DatabaseError(
        file + ": it is empty; a take comes into it with `insideline assess TAKE --against SHEET --log " + file + "`");
  if (version > 0 && version < practice_log_version) {
    Transaction transaction(connection_);
    bring_up_to_date();
    transaction.commit();
  }
}

int PracticeLog::stored_version() {
  if (connection_.number("SELECT count(*) FROM sqlite_master") == 0) return 0;
  const auto version = connection_.number("PRAGMA user_version");
  if (connection_.number("PRAGMA application_id") != practice_log_id || version < 1)
    throw DatabaseError(connection_.name() +
                        ": this is a database of something else, not a practice log; name another file");
  if (version > practice_log_version)
    throw DatabaseError(
        fmt::format("{}: a newer version of insideline made this practice log (version {}, this program knows {}); use "
                    "that version, or name another file",
                    connection_.name(), version, practice_log_version));
  return static_cast<int>(version);
}

void PracticeLog::bring_up_to_date() {
  const int version = stored_version();  // another program may have done it while this one waited for its turn
  for (int step = version; step < practice_log_version; ++step) connection_.run(practice_log_step(step));
  if (version < practice_log_version)
    connection_.run(
        fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};", practice_log_id, practice_log_version));
}

void PracticeLog::add(const LoggedTake& take, const ContentHash& hash) {
  Transaction transaction(connection_);
  bring_up_to_date();
  Statement adopt(connection_, "UPDATE OR REPLACE takes SET sheet_id = ? WHERE sheet_id = '' AND sheet = ?");
  adopt.bind(1, std::string_view(take.sheet_id)).bind(2, std::string_view(take.sheet));
  adopt.run();
  Statement insert(connection_,
                   "INSERT OR REPLACE INTO takes VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
                   "?, ?)");
  insert.bind(1, std::string_view(to_string(hash)))
      .bind(2, std::string_view(take.player))
      .bind(3, std::string_view(take.sheet_id))
      .bind(4, std::string_view(take.day))
      .bind(5, std::string_view(take.sheet))
      .bind(6, std::string_view(take.take))
      .bind(7, take.tempo_bpm)
      .bind(8, take.right.count)
      .bind(9, take.right.of)
      .bind(10, take.up.count)
      .bind(11, take.up.of)
      .bind(12, take.down.count)
      .bind(13, take.down.of)
      .bind(14, take.restarts)
      .bind(15, take.whole ? std::optional<int>(*take.whole ? 1 : 0) : std::nullopt)
      .bind(16, take.spread_percent)
      .bind(17, take.added)
      .bind(18, take.tempo_strays_percent)
      .bind(19, take.tempo_jumps);
  insert.run();
  transaction.commit();
}

std::vector<LoggedTake> PracticeLog::takes_of(const std::string& player, const std::string& sheet_id) {
  Statement rows(connection_, std::string(of_a_take) + "WHERE player = ? AND sheet_id = ? ORDER BY day, number");
  rows.bind(1, std::string_view(player)).bind(2, std::string_view(sheet_id));
  return takes_in(rows, connection_.name());
}

std::vector<LoggedTake> PracticeLog::takes() {
  Statement rows(connection_, std::string(of_a_take) + "ORDER BY day, number");
  return takes_in(rows, connection_.name());
}

}  // namespace insideline::io
