#include "analyzer/model/beats.hpp"

#include <cstdint>
#include <limits>
#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;

TEST_CASE("three triplet eighths make exactly one quarter") {
  const Beats triplet_eighth(1, 3);
  CHECK(triplet_eighth + triplet_eighth + triplet_eighth == Beats(1));
  CHECK(Beats(2, 4) == Beats(1, 2));
  CHECK(Beats(1, 3) < Beats(1, 2));
  CHECK(Beats(-1, 2) < Beats(-1, 3));
  CHECK(Beats(3, -6) == Beats(-1, 2));
}

TEST_CASE("a time is written as a fraction and read back") {
  const auto [text, expected] =
      GENERATE(table<std::string, Beats>({{"0", Beats(0)},
                                          {"1/2", Beats(1, 2)},
                                          {"-22/3", Beats(-22, 3)},
                                          {"0.25", Beats(1, 4)},
                                          {"-0.5", Beats(-1, 2)},
                                          {"9223372036.854775807", Beats(9223372036854775807, 1000000000)},
                                          {"1.5", Beats(3, 2)}}));
  CHECK(insideline::parse_beats(text) == expected);
  CHECK(insideline::parse_beats(to_string(expected)) == expected);
}

TEST_CASE("what is not a time is not read as one") {
  const auto text = GENERATE(as<std::string>{}, "", "x", "1/0", "1/-2", "1//2", "1.", ".5x", "1.1234567890", "1 ",
                             "99999999999999999999", "9223372036854775807.5", "-9223372036854775807.5",
                             "9223372036854775.123456789", "-9223372036854775808", "-9223372036854775808/2");
  CHECK_FALSE(insideline::parse_beats(text).has_value());
}

TEST_CASE("the place in a bar is counted from the bar line, also in a pickup") {
  CHECK(whole_units(Beats(7, 2), Beats(2)) == 1);
  CHECK(remainder_within(Beats(7, 2), Beats(2)) == Beats(3, 2));
  CHECK(whole_units(Beats(-1, 2), Beats(4)) == -1);
  CHECK(remainder_within(Beats(-1, 2), Beats(4)) == Beats(7, 2));
  CHECK(remainder_within(Beats(-4), Beats(4)) == Beats(0));
}

TEST_CASE("a time that leaves 64 bits is an error, not a wrong time") {
  const Beats largest(std::numeric_limits<std::int64_t>::max());
  CHECK_THROWS_AS(largest + 1, std::overflow_error);
  CHECK_THROWS_AS(largest * largest, std::overflow_error);
  CHECK_THROWS_WITH(Beats(1, std::numeric_limits<std::int64_t>::max()) + Beats(1, 3),
                    "musical time does not fit 64 bits");
}
