#include "io/musicxml/numbers.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>

using insideline::Beats;
using insideline::io::parse_decimal;
using insideline::io::parse_int;
using std::nullopt;
using std::optional;
using std::string;

TEST_CASE("decimals of a score are read exactly or not at all") {
  const auto [text, expected] = GENERATE(table<string, optional<Beats>>({
      {"1", Beats(1)},
      {" 12 ", Beats(12)},
      {"-3", Beats(-3)},
      {"+2", Beats(2)},
      {"0.5", Beats(1, 2)},
      {".5", Beats(1, 2)},
      {"1.", Beats(1)},
      {"-2.25", Beats(-9, 4)},
      {"1.500000000000", Beats(3, 2)},
      {"\n480\t", Beats(480)},
      {"", nullopt},
      {".", nullopt},
      {"-", nullopt},
      {"-.", nullopt},
      {"12x", nullopt},
      {"1e3", nullopt},
      {"1.2.3", nullopt},
      {"--1", nullopt},
      {"0x10", nullopt},
      {"1,5", nullopt},
      {"nan", nullopt},
      {"1000000000000", nullopt},
      {"99999999999999999999", nullopt},
      {"0.0000000001", nullopt},
      {"1.-5", nullopt},
  }));
  CAPTURE(text);
  CHECK(parse_decimal(text) == expected);
}

TEST_CASE("whole numbers are read as a whole or not at all") {
  const auto [text, expected] = GENERATE(table<string, optional<int>>({{"7", 7},
                                                                       {" -7\n", -7},
                                                                       {"+7", 7},
                                                                       {"", nullopt},
                                                                       {"7a", nullopt},
                                                                       {"7.0", nullopt},
                                                                       {"99999999999", nullopt},
                                                                       {"+-7", nullopt}}));
  CHECK(parse_int(text) == expected);
}
