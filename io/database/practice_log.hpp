// The practice log: one row a take, in a small SQLite database that a player keeps.
#pragma once

#include "analyzer/takes/practice_log.hpp"
#include "io/content_hash.hpp"
#include "io/database/new_file.hpp"
#include "io/database/statement.hpp"

#include <string>
#include <vector>

namespace insideline::io {

/// Promise: a take is in the log as a whole or not at all, and once.
class PracticeLog {
 public:
  /// Opens or makes `file`. Throws DatabaseError, also where it is a database of something else.
  explicit PracticeLog(const std::string& file);

  /// A take whose file holds the same as one that is there takes its place.
  void add(const LoggedTake& take, const ContentHash& hash);
  /// Those of one sheet, the oldest first.
  std::vector<LoggedTake> takes_of(const std::string& sheet);

 private:
  bool is_empty();

  NewFile new_file_;  ///< outlives the connection
  Connection connection_;
};

}  // namespace insideline::io
