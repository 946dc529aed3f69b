#include "analyzer/small_letters.hpp"

#include <catch2/catch.hpp>

using insideline::in_small_letters;
using insideline::same_but_for_capitals;

TEST_CASE("capitals from A to Z become small, and nothing else changes") {
  CHECK(in_small_letters("Last A, AZ az @[`{ 09") == "last a, az az @[`{ 09");
  CHECK(in_small_letters("B\xC3\x84") == "b\xC3\x84");
  CHECK(in_small_letters("").empty());
}

TEST_CASE("names are the same where only capitals differ") {
  CHECK(same_but_for_capitals("Tenor SAX", "tenor sax"));
  CHECK_FALSE(same_but_for_capitals("tenor", "tenors"));
  CHECK_FALSE(same_but_for_capitals("[", "{"));
}
