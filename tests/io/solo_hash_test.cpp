#include "io/solo_hash.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>
#include <tuple>

using insideline::io::ContentHash;
using insideline::io::solo_hash;

TEST_CASE("fingerprints of solos are those of the published algorithm") {
  const auto [text, expected] = GENERATE(table<std::string, std::string>({
      {"", "00000000000000000000000000000000"},
      {"hello", "cbd8a7b341bd9b025b1e906a48ae1d19"},
      {"The quick brown fox jumps over the lazy dog", "e34bbc7bbc071b6c7a433ca9c49a9347"},
  }));
  CHECK(to_string(solo_hash(text)) == expected);
}

TEST_CASE("a solo has another fingerprint when one byte changes, wherever it stands and however long the file is") {
  std::set<ContentHash> seen;
  std::size_t files = 0;
  for (std::size_t length = 1; length <= 40; ++length) {
    std::string bytes(length, 'c');
    seen.insert(solo_hash(bytes));
    ++files;
    for (char& byte : bytes) {
      byte = 'd';
      seen.insert(solo_hash(bytes));
      ++files;
      byte = 'c';
    }
  }
  CHECK(seen.size() == files);
}

TEST_CASE("the fingerprint of a solo with its changes tells which is which") {
  const ContentHash together = solo_hash("changes", solo_hash("solo"));
  CHECK(together == solo_hash("changes", solo_hash("solo")));
  CHECK(together != solo_hash("solo", solo_hash("changes")));
  CHECK(together != solo_hash("solo"));
  CHECK(together != solo_hash("other changes", solo_hash("solo")));
}
