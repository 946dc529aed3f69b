// The database of a collection of solos.
#pragma once

#include "analyzer/collection/overview.hpp"
#include "analyzer/collection/solo_rows.hpp"
#include "io/content_hash.hpp"
#include "io/database/statement.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// Where a solo lies.
struct SoloPlace {
  std::string path;
  std::string folder;
  std::string player;
};

struct StoredSolo {
  ContentHash hash;
  SoloPlace place;
  std::string made_with;
};

/// What the database keeps of a solo. Those after the count are what it has many of, as texts: see json_rows.hpp.
struct SoloTexts {
  std::string title;
  std::string part;
  int bars = 0;
  int choruses = 1;
  std::size_t note_count = 0;
  std::string figures;
  std::string cells;
  std::string arpeggios;
  std::string connections;
  std::string chords;
  std::string notes;
};

/// Needs no database, so that several threads can make them while another stores. Throws DatabaseError, which names
/// `path`, where a row names a chord or a note that the solo does not have.
SoloTexts solo_texts(const SoloRows& rows, const std::string& path);

struct ListedSolo {
  SoloPlace place;
  std::string title;
  int bars = 0;
  int notes = 0;
};

struct Totals {
  int solos = 0;
  int players = 0;
  int folders = 0;
  int bars = 0;
  int notes = 0;
};

struct NamedCount {
  std::string name;
  int count = 0;
  int solos = 0;  ///< in how many of them
};

/// A file that was read before: of which solo, and the stamp it had.
struct KnownFile {
  std::string stamp;
  ContentHash hash;
  std::string made_with;
  std::string path_of_solo;
};

/// Promise: every solo is there with all its rows or not at all, whenever the program ends. Solos are committed twenty
/// at a time, so a program that is killed loses the last few. Other programs may read meanwhile, and see what was
/// committed till then. One thread at a time.
class Collection {
 public:
  /// Opens the database `file`, or makes it where it may be written; the empty name is one that is gone at the end.
  /// What is only read stays as it is at this moment. Throws DatabaseError.
  explicit Collection(const std::string& file, Access access = Access::write);
  Collection(Collection&&) noexcept;
  Collection& operator=(Collection&&) = delete;
  ~Collection();

  std::optional<KnownFile> known_file(const std::string& path);
  /// The same for several, asked in one step.
  std::vector<std::optional<KnownFile>> known_files(std::span<const std::string> paths);
  /// What is stored under this hash.
  std::optional<StoredSolo> stored(const ContentHash& hash);
  /// Stores the solo with all that it has, in place of what was there under its hash or under its path.
  void store(const StoredSolo& solo, const SoloTexts& texts, const std::string& stamp);
  /// Notes that the file at `path` holds the solo, and where the solo is said to lie.
  void remember(const std::string& path, const std::string& stamp, const ContentHash& hash);
  void move(const ContentHash& hash, const SoloPlace& place);
  /// Keeps all that was stored and leaves one plain file that can be copied and read anywhere, unless another program
  /// is reading it; from then on nothing can be stored, and all that is asked is answered from this moment. A database
  /// that was made here and is left without this and without any solo is taken away again.
  void finish();

  Totals totals();
  std::vector<ListedSolo> solos();  ///< by path
  /// For each of these figures, each named once by the key of its row: what the solos have, in the order of solos().
  /// Goes through the collection once.
  std::vector<std::vector<SoloValue>> values(std::span<const std::string_view> figures);
  std::vector<NamedCount> frequent_cells(int most);  ///< the most frequent first
  std::vector<NamedCount> frequent_arpeggios(int most);
  std::vector<std::string> made_with();  ///< all ways in it, sorted

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace insideline::io
