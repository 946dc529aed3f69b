// Writes the rows of one solo. Its statements are prepared once.
#pragma once

#include "analyzer/collection/solo_rows.hpp"
#include "io/database/collection.hpp"
#include "io/database/statement.hpp"

#include <cstdint>

namespace insideline::io {

/// The number of a solo in the database, made from what it holds.
std::int64_t solo_id(const ContentHash& hash);

class SoloWriter {
 public:
  /// The connection must outlive it; its tables must be there.
  explicit SoloWriter(Connection& connection);
  /// Within a transaction of the caller. No solo of the same hash may be stored.
  void write(const StoredSolo& solo, const SoloRows& rows);

 private:
  void write_chords(std::int64_t id, const SoloRows& rows);
  void write_notes(std::int64_t id, const SoloRows& rows);
  void write_arpeggios(std::int64_t id, const SoloRows& rows);
  void write_connections(std::int64_t id, const SoloRows& rows);
  void write_counts(std::int64_t id, const SoloRows& rows);

  Statement solo_;
  Statement chord_;
  Statement note_;
  Statement arpeggio_;
  Statement connection_;
  Statement cell_;
  Statement figure_;
};

}  // namespace insideline::io
