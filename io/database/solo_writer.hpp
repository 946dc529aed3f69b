// Writes one solo: first what it has many of as texts, which any thread can make, then its two rows, with statements
// that are prepared once.
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
  /// refer to, which costs a third of the writing: a solo's texts refer to each other alone, and `solo_texts` counts.
  explicit SoloWriter(Connection& connection);
  /// Within a transaction of the caller. No solo of the same hash may be stored.
  void write(const StoredSolo& solo, const SoloTexts& texts);
  /// Takes the solo away with all that it has. Within a transaction of the caller.
  void drop(std::int64_t id);

 private:
  Statement solo_;
  Statement lists_;
  std::vector<Statement> drops_;
};

}  // namespace insideline::io
