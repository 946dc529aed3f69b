#include "io/content_hash.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>

using insideline::io::content_hash;

TEST_CASE("fingerprints are those of the published algorithm") {
  // Values of FNV-1a with 128 bits as its authors and the Go standard library (hash/fnv) list them.
  const auto [text, expected] = GENERATE(table<std::string, std::string>({
      {"", "6c62272e07bb014262b821756295c58d"},
      {"a", "d228cb696f1a8caf78912b704e4a8964"},
      {"ab", "08809544bbab1be95aa0733055b69a62"},
      {"abc", "a68d622cec8b5822836dbc7977af7f3b"},
  }));
  CHECK(to_string(content_hash(text)) == expected);
}

TEST_CASE("a fingerprint can be taken in two parts") {
  CHECK(content_hash("c", content_hash("ab")) == content_hash("abc"));
  CHECK(content_hash("abd") != content_hash("abc"));
}
