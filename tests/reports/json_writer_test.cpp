#include "reports/json_writer.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

using insideline::Share;
using insideline::reports::JsonLayout;
using insideline::reports::JsonWriter;

namespace {

std::string number(double value) {
  JsonWriter json(JsonLayout::compact);
  json.member("n", value);
  const std::string text = std::move(json).finished();
  return text.substr(5, text.size() - 6);
}

}  // namespace

TEST_CASE("members of the document and of its objects, objects and texts in its lists have a line each") {
  JsonWriter json;
  json.member("version", 1);
  json.member("warnings", std::vector<std::string>{"one", "two"});
  json.member("numbers", std::vector<int>{1, 2});
  json.member("nothing", std::vector<int>{});
  json.list("notes", std::vector<int>{5, 6}, [&](int midi) {
    json.object([&] {
      json.member("midi", midi);
      json.member("names", std::vector<std::string>{"a", "b"});
      json.object("none", [] {});
    });
  });
  json.object("summary", [&] {
    json.member("share", Share{.count = 3, .of = 7});
    json.member("sure", true);
    json.member("key", std::optional<int>());
  });
  CHECK(std::move(json).finished() == R"({
  "version": 1,
  "warnings": [
    "one",
    "two"
  ],
  "numbers": [1, 2],
  "nothing": [],
  "notes": [
    { "midi": 5, "names": ["a", "b"], "none": {} },
    { "midi": 6, "names": ["a", "b"], "none": {} }
  ],
  "summary": {
    "share": { "count": 3, "of": 7 },
    "sure": true,
    "key": null
  }
}
)");
}

TEST_CASE("the compact layout has nothing that need not be there") {
  JsonWriter json(JsonLayout::compact);
  json.list("bars", std::vector<int>{1, 2}, [&](int bar) {
    json.list([&] {
      json.add(bar);
      json.add(0.5);
    });
  });
  json.object("of", [&] { json.member("x", nullptr); });
  CHECK(std::move(json).finished() == R"({"bars":[[1,0.5],[2,0.5]],"of":{"x":null}})");
}

TEST_CASE("a number has at most six places and always a point or an exponent") {
  const auto [value, expected] = GENERATE(table<double, std::string>({
      {0.0, "0.0"},
      {-0.0, "-0.0"},
      {3.0, "3.0"},
      {-2.5, "-2.5"},
      {1.0 / 3, "0.333333"},
      {0.9955039999999999, "0.995504"},
      {0.0001, "0.0001"},
      {0.00001, "1e-05"},
      {0.000001, "1e-06"},
      {1e-9, "0.0"},
      {1e15, "1e+15"},
      {std::numeric_limits<double>::infinity(), "null"},
      {std::nan(""), "null"},
  }));
  CHECK(number(value) == expected);
}

TEST_CASE("a reader finds the number that was written, rounded to six places") {
  std::mt19937 random(6);
  std::uniform_real_distribution<double> size(-7.0, 12.0);
  for (int i = 0; i < 20'000; ++i) {
    const double value = (i % 2 == 0 ? 1.0 : -1.0) * std::pow(10.0, size(random));
    const double rounded = std::round(value * 1e6) / 1e6;
    if (nlohmann::json::parse(number(value)).get<double>() != rounded) FAIL(number(value));
  }
}

TEST_CASE("texts are escaped, and what is not UTF-8 is replaced") {
  const auto [text, expected] = GENERATE(table<std::string, std::string>({
      {"plain", R"("plain")"},
      {"a \"b\" \\", R"("a \"b\" \\")"},
      {"line\n\x01", R"("line\n\u0001")"},
      {"\xE2\x99\xAD", "\"\xE2\x99\xAD\""},
      {"Caf\xE9", "\"Caf\xEF\xBF\xBD\""},
  }));
  JsonWriter json(JsonLayout::compact);
  json.member("t", text);
  CHECK(std::move(json).finished() == "{\"t\":" + expected + "}");
}
