#include "analyzer/harmony/chord_kinds.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

#include <set>

namespace insideline::tests {

TEST_CASE("every kind of chord in the table is what its suffix reads as, and no two are the same") {
  std::set<std::string> seen;
  for (const ChordKind& kind : chord_kinds()) {
    const std::string symbol = "C" + std::string(kind.suffix);
    INFO(symbol);
    CHECK(chord_from(symbol).tones == kind.tones);
    CHECK(seen.insert(spelled(kind.tones)).second);
  }
}

}  // namespace insideline::tests
