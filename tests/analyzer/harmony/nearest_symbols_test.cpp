#include "analyzer/harmony/nearest_symbols.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("an unreadable symbol comes with the readable ones that look like it") {
  const auto [symbol, nearest] = GENERATE(table<Text, std::vector<std::string>>({
      {"Cmaj7xyz", {"Cmaj7", "Cmaj7#11", "Cmaj7#5"}},
      {"C7(b9", {"C7(b9)", "C7b9", "C7#9"}},
      {"Hm7", {"Bm7"}},
      {"c7", {"C7", "Cm7", "C"}},
      {"D/Cm7", {"D/C", "Dm7", "Ddim7"}},
      {"C:7/G", {"C7/G", "C:7"}},
      {"Fqaj7", {"Fmaj7", "Fmaj9", "FmMaj7"}},
      {"?", {}},
  }));
  INFO(symbol);
  const auto reading = parse_chord_symbol(symbol);
  REQUIRE_FALSE(reading);
  CHECK(reading.error().nearest == nearest);
}

TEST_CASE("the edit distance counts a slip of case less than another letter, and a swap once") {
  CHECK(edit_distance("maj7", "maj7") == 0);
  CHECK(edit_distance("Maj7", "maj7") == 1);
  CHECK(edit_distance("mja7", "maj7") == 4);
  CHECK(edit_distance("ma7", "maj7") == 4);
  CHECK(edit_distance("", "maj7") == 16);
}

}  // namespace insideline::tests
