#include "io/database/new_file.hpp"

#include "tests/support/own_folder.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using insideline::io::NewFile;

namespace {

void write(const std::string& file, const std::string& bytes) { std::ofstream(file) << bytes; }

}  // namespace

TEST_CASE("a database that was begun and holds nothing is taken away, any other stays") {
  const insideline::tests::OwnFolder folder;
  const std::string old_and_empty = folder.file("old.db");
  const std::string new_and_empty = folder.file("empty.db");
  const std::string new_and_full = folder.file("full.db");
  const std::string new_and_useless = folder.file("useless.db");
  write(old_and_empty, "");
  {
    NewFile old(old_and_empty);
    old.holds_nothing();
    const NewFile empty(new_and_empty);
    const NewFile full(new_and_full);
    NewFile useless(new_and_useless);
    CHECK_FALSE(old.is_new());
    CHECK(full.is_new());
    write(new_and_empty, "");
    write(new_and_full, "takes of others");
    write(new_and_useless, "tables without a row");
    write(new_and_useless + "-wal", "");
    useless.holds_nothing();
  }
  CHECK(std::filesystem::exists(old_and_empty));
  CHECK_FALSE(std::filesystem::exists(new_and_empty));
  CHECK(std::filesystem::exists(new_and_full));
  CHECK_FALSE(std::filesystem::exists(new_and_useless));
  CHECK_FALSE(std::filesystem::exists(new_and_useless + "-wal"));
}
