// Writes the rows of one solo. Its statements are prepared once.
#pragma once

#include "analyzer/collection/solo_rows.hpp"
#include "io/database/collection.hpp"
#include "io/database/statement.hpp"

#include <cstdint>
#include <vector>

namespace insideline::io {

/// The number of a solo in the database, made from what it holds.
std::int64_t solo_id(const ContentHash& hash);

class SoloWriter {
 public:
  /// The connection must outlive it; its tables must be there. From now on the database does not look up what its rows
  /// refer to, which costs a third of the writing: the rows of a solo refer to each other alone, and `write` counts.
  explicit SoloWriter(Connection& connection);
  /// Within a transaction of the caller. No solo of the same hash may be stored. Throws DatabaseError where a row names
  /// a chord or a note that the solo does not have.
  void write(const StoredSolo& solo, const SoloRows& rows);
  /// Takes the solo away with all its rows. Within a transaction of the caller.
  void drop(std::int64_t id);

 private:
  Statement solo_;
  Statement lists_;
  Statement figure_;
  std::vector<Statement> drops_;
};

}  // namespace insideline::io
