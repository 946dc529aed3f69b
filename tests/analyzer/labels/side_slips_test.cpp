#include "analyzer/labels/side_slips.hpp"

#include "analyzer/phrases.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

TEST_CASE("a side-slip may lie farther away than a half step") {
  const auto solo = insideline::tests::solo_from("A4:1/2 F4:1/2 Ab4:1/2 B4:1/2 Eb5:1/2 Gb5:1/2 A4:1");
  const auto harmony = insideline::tests::harmony_from("Dm7@0", solo);
  insideline::Chain chain;
  insideline::for_each_chain(solo, harmony, insideline::find_phrases(solo, harmony), {},
                             [&](const insideline::Chain& found) { chain = found; });
  REQUIRE(chain.size() == 7);
  for (std::size_t i = 2; i < 6; ++i) CHECK(chain[i].slips == 6);  // Abm7, a tritone away
  CHECK(chain[1].slips == 0);
  CHECK(chain[6].slips == 0);
}

TEST_CASE("the chord aside and the way to it are spelled as a musician says them") {
  CHECK(insideline::way_aside(-3) == "a minor third below");
  CHECK(insideline::way_aside(6) == "a tritone above");
}
