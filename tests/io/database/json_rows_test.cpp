#include "io/database/json_rows.hpp"

#include "io/database/statement.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>
#include <vector>

using insideline::io::Connection;
using insideline::io::json_rows;
using insideline::io::JsonRow;
using insideline::io::JsonRowReader;
using insideline::io::named_json_rows;
using insideline::io::Statement;

namespace {

/// What SQLite finds in the first row.
template <typename Value>
Statement first_row(Connection& connection, const Value& value) {
  const std::string text =
      json_rows(std::vector<Value>{value}, [](JsonRow row, const Value& entry) { row.add(entry).add(7); });
  Statement select(connection, "SELECT json_extract(?1, '$[0][0]'), json_extract(?1, '$[0][1]')");
  select.bind(1, std::string_view(text));
  REQUIRE(select.step());
  CHECK(select.integer(1) == 7);
  return select;
}

}  // namespace

TEST_CASE("rows are one text, in order, and none are an empty list") {
  const auto number_and_words = [](JsonRow row, int number) {
    row.add(number).add(std::to_string(number)).add(number > 1).add(std::optional<int>{}).add(0.5 * number);
  };
  CHECK(json_rows(std::vector<int>{}, number_and_words) == "[]");
  CHECK(json_rows(std::vector{1}, number_and_words) == R"([[1,"1",0,null,0.5]])");
  CHECK(json_rows(std::vector{1, -2, 3}, number_and_words) ==
        R"([[1,"1",0,null,0.5],[-2,"-2",0,null,-1],[3,"3",1,null,1.5]])");
}

TEST_CASE("SQLite reads the words in a row as they were given") {
  const auto words = GENERATE(as<std::string>{}, "", "G:7(b8,*5)", "\"quoted\"", "back\\slash", "two\nlines\tand more",
                              "\x01", "B♭ Größe", "],[");
  Connection connection("");
  CHECK(first_row(connection, words).text(0) == words);
}

TEST_CASE("SQLite reads the numbers in a row as they were given") {
  const double number = GENERATE(0.0, 4.0, -0.5, 1.0 / 3.0, 0.1, 0.1234, 17.0625, 99999.9999, 0.00005, -0.25, 999999.0,
                                 1e6, -1e6, 123456789.25, 1e300, 1e-7);
  Connection connection("");
  CHECK(first_row(connection, number).real(0) == Approx(number).epsilon(1e-15));
}

TEST_CASE("numbers are written with the places they have") {
  const auto number = [](JsonRow row, double value) { row.add(value); };
  CHECK(json_rows(std::vector{0.5, 12.25, 0.0625, 3.0001, 1.0 / 3.0, 0.00005}, number) ==
        "[[0.5],[12.25],[0.0625],[3.0001],[0.3333333333333333],[5e-05]]");
}

TEST_CASE("rows are read back value by value, with their names if they have any") {
  const auto fill = [](JsonRow row, int number) {
    row.add(std::to_string(number)).add(number).add(std::optional<int>{});
  };
  const std::string text = json_rows(std::vector{3, -5}, fill);
  JsonRowReader rows(text);
  REQUIRE(rows.next());
  CHECK(rows.name().empty());
  CHECK(rows.value(0) == "3");
  CHECK(rows.number(1) == 3.0);
  CHECK_FALSE(rows.number(2));
  CHECK(rows.value(3).empty());
  REQUIRE(rows.next());
  CHECK(rows.number(1) == -5.0);
  CHECK_FALSE(rows.next());

  const std::string named = named_json_rows(
      std::vector{1, 2}, [](int number) { return number == 1 ? "roots" : "thirds"; }, fill);
  CHECK(named == R"({"roots":["1",1,null],"thirds":["2",2,null]})");
  JsonRowReader both(named);
  REQUIRE(both.next());
  CHECK(both.name() == "roots");
  CHECK(both.number(1) == 1.0);
  REQUIRE(both.next());
  CHECK(both.name() == "thirds");
  CHECK(both.value(0) == "2");
  CHECK_FALSE(both.next());
}

TEST_CASE("brackets and commas within words end no value, and what is no list of rows has none") {
  const std::string text = json_rows(std::vector{1}, [](JsonRow row, int number) { row.add("],[\",x").add(number); });
  JsonRowReader rows(text);
  REQUIRE(rows.next());
  CHECK(rows.number(1) == 1.0);
  CHECK_FALSE(rows.next());
  for (const char* other : {"", "[", "[]", "{}", "null", "[[1,2", "[[\"a", "{\"a\":", "{\"a", "[[\"a\\"}) {
    INFO(other);
    CHECK_FALSE(JsonRowReader(other).next());
  }
}
