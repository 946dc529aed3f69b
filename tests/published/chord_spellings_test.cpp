// The spellings of chord_spellings.tsv; its head names the sources.
#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/chord_reading.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

TEST_CASE("every published spelling of a chord is read as its sources say") {
  const auto rows = table_rows(INSIDELINE_TESTS "/published/chord_spellings.tsv");
  REQUIRE(rows.size() == 183);
  for (const auto& row : rows) {
    INFO(row.at(0));
    const auto reading = parse_chord_symbol(row.at(0));
    REQUIRE(reading);
    if (row.at(2) == "none") {
      CHECK_FALSE(reading->has_value());
      continue;
    }
    REQUIRE(reading->has_value());
    const Chord& chord = **reading;
    CHECK(to_string(chord.root) == row.at(1));
    CHECK(spelled(chord.tones) == row.at(2));
    CHECK((chord.bass ? to_string(*chord.bass) : "-") == row.at(3));
    if (row.at(4) != "-") CHECK(spelled(chord.tensions) == row.at(4));
    CHECK(chord.symbol == row.at(0));
  }
}

TEST_CASE("every published spelling keeps its meaning when it is written plainly") {
  for (const auto& row : table_rows(INSIDELINE_TESTS "/published/chord_spellings.tsv")) {
    const auto reading = parse_chord_symbol(row.at(0));
    REQUIRE(reading);
    if (!*reading) continue;
    const std::string plain = canonical_symbol(**reading);
    INFO(row.at(0) << " is " << plain);
    CHECK(same_chord(chord_from(plain), **reading));
    CHECK(plain.size() <= row.at(0).size() + 4);
  }
}

}  // namespace insideline::tests
