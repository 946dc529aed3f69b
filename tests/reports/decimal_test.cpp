#include "reports/decimal.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>
#include <tuple>

using insideline::reports::append_decimal;
using insideline::reports::append_millionths;

namespace {

std::string decimal(double value) {
  std::string text;
  append_decimal(text, value);
  return text;
}

/// What a general library prints with six places, without those that are nothing.
std::string plain_decimal(double value) {
  std::string text = fmt::format("{:.6f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace

TEST_CASE("a decimal has no places that are nothing") {
  const auto [value, expected] = GENERATE(table<double, std::string>({
      {0.0, "0"},
      {-0.0, "0"},
      {1.5, "1.5"},
      {-0.25, "-0.25"},
      {4.0, "4"},
      {1.0 / 3, "0.333333"},
      {1e-6, "0.000001"},
      {-1e-9, "0"},
      {1.0 / 128, "0.007812"},  // a tie goes to the even place
      {3.0 / 128, "0.023438"},
      {1e15, "1000000000000000"},
  }));
  CHECK(decimal(value) == expected);
}

TEST_CASE("a decimal is what a general library prints with six places") {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> size(-4.0, 5.0);
  for (int i = 0; i < 20'000; ++i) {
    const double value = (i % 2 == 0 ? 1.0 : -1.0) * std::pow(10.0, size(random));
    if (decimal(value) != plain_decimal(value)) FAIL(fmt::format("{}: {}", value, decimal(value)));
  }
  for (int part = -2000; part < 2000; ++part)
    for (const double of : {2.0, 3.0, 7.0, 24.0, 128.0, 480.0, 640.0, 1024.0})
      if (decimal(part / of) != plain_decimal(part / of))
        FAIL(fmt::format("{} / {}: {}", part, of, decimal(part / of)));
}

TEST_CASE("millionths are added behind what is there") {
  std::string text = "x=";
  append_millionths(text, -1'000'001);
  CHECK(text == "x=-1.000001");
}
