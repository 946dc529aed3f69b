#include "io/database/merge.hpp"

#include "io/database/collection.hpp"
#include "tests/support/own_folder.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <vector>

using insideline::SoloRows;
using insideline::io::Access;
using insideline::io::Collection;
using insideline::io::content_hash;
using insideline::io::merge_databases;
using insideline::io::solo_texts;

namespace {

namespace fs = std::filesystem;

/// A database with one solo for each letter of `contents`, which lies at "FOLDER/letter.mid".
std::string part(const fs::path& file, const std::string& contents, const std::string& folder,
                 const std::string& way = "1") {
  Collection collection(file.string());
  for (const char content : contents) {
    const std::string path = folder + "/" + content + ".mid";
    SoloRows rows;
    rows.title = std::string(1, content);
    rows.bars = 12;
    rows.notes.resize(3);
    collection.store({.hash = content_hash(rows.title), .place = {path, folder, "player"}, .made_with = way},
                     solo_texts(rows, path), "");
  }
  collection.finish();
  return file.string();
}

std::string paths_in(const fs::path& file) {
  Collection collection(file.string(), Access::read);
  std::string paths;
  for (const auto& solo : collection.solos()) paths += solo.place.path + " ";
  return paths;
}

}  // namespace

TEST_CASE("parts put together have every solo once, at the first of its places, in whatever order they come") {
  const insideline::tests::OwnFolder own;
  const fs::path& folder = own.path();
  const std::string one = part(folder / "one.db", "ab", "z");
  const std::string two = part(folder / "two.db", "bc", "y");
  const fs::path merged = folder / "merged.db";
  const auto result = merge_databases({one, two}, merged.string());
  CHECK(result.added == std::vector<int>{2, 1});
  CHECK(result.solos == 3);
  CHECK(paths_in(merged) == "y/b.mid y/c.mid z/a.mid ");
  merge_databases({two, one}, (folder / "other.db").string());
  CHECK(paths_in(folder / "other.db") == paths_in(merged));
  const auto again = merge_databases({two, part(folder / "three.db", "d", "x")}, merged.string());
  CHECK(again.added == std::vector<int>{0, 1});
  CHECK(paths_in(merged) == "x/d.mid y/b.mid y/c.mid z/a.mid ");
}

TEST_CASE("twenty parts can be put together") {
  const insideline::tests::OwnFolder own;
  const fs::path& folder = own.path();
  std::vector<std::string> parts;
  for (char content = 'a'; content < 'a' + 20; ++content)
    parts.push_back(part(folder / (std::string(1, content) + ".db"), std::string(1, content), "f"));
  CHECK(merge_databases(parts, (folder / "merged.db").string()).solos == 20);
}

TEST_CASE("a part that does not fit is refused before anything is written") {
  const insideline::tests::OwnFolder own;
  const fs::path& folder = own.path();
  const std::string one = part(folder / "one.db", "ab", "z");
  const std::string other_way = part(folder / "other.db", "c", "z", "2");
  const fs::path merged = folder / "merged.db";
  CHECK_THROWS_WITH(merge_databases({one, other_way}, merged.string()), Catch::Contains("analysed in another way"));
  CHECK_THROWS_WITH(merge_databases({one, (folder / "none.db").string()}, merged.string()),
                    Catch::Contains("there is no such database"));
  CHECK_THROWS_WITH(merge_databases({other_way}, one), Catch::Contains("analysed in another way"));
  CHECK_FALSE(fs::exists(merged));
  CHECK(paths_in(one) == "z/a.mid z/b.mid ");
}
