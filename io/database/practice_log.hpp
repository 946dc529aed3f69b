// The practice log: one row a take, in a small SQLite database that a player or a class keeps.
#pragma once

#include "analyzer/takes/practice_log.hpp"
#include "io/content_hash.hpp"
#include "io/database/new_file.hpp"
#include "io/database/statement.hpp"

#include <string>
#include <vector>

namespace insideline::io {

constexpr int practice_log_version = 3;  ///< PRAGMA user_version; a count of its own, apart from that of collections

/// What tells one sheet from another: the pitches and when they come, from the first note on. The same sheet under
/// another name, or as MusicXML and as MIDI, is the same sheet.
std::string sheet_id(const Solo& sheet);

/// Promise: a take is in the log as a whole or not at all, and once for a player and a sheet.
class PracticeLog {
 public:
  /// Opens `file`, or makes it where it may be written; an older log is brought up to date. Throws DatabaseError, also
  /// where it is a database of something else, of a newer version, or empty and to be read.
  explicit PracticeLog(const std::string& file, Access access = Access::write);

  /// A take whose file holds the same as one that is there takes its place. Takes of an old log, which knows sheets by
  /// their names only, go with the first sheet of their name.
  void add(const LoggedTake& take, const ContentHash& hash);
  /// Those of one player and one sheet, the oldest first.
  std::vector<LoggedTake> takes_of(const std::string& player, const std::string& sheet_id);
  /// All, the oldest first.
  std::vector<LoggedTake> takes();

 private:
  /// 0 for a new one. Throws where it is none of ours.
  int stored_version();
  void bring_up_to_date();

  NewFile new_file_;  ///< outlives the connection
  Connection connection_;
};

/// The statements that lead from version `from` of the log to the next; 0 is an empty database.
const char* practice_log_step(int from);

}  // namespace insideline::io
