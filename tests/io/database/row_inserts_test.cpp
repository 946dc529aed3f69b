#include "io/database/row_inserts.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>

using insideline::io::Connection;
using insideline::io::NewRow;
using insideline::io::RowInserts;
using insideline::io::Statement;

TEST_CASE("rows come into the table all and in order, however many there are") {
  const std::size_t count = GENERATE(0U, 1U, 15U, 16U, 17U, 32U, 47U);
  Connection connection("");
  connection.run("CREATE TABLE t (a INTEGER, b TEXT, c)");
  RowInserts rows(connection, "t", 3);
  const std::string lasting = "lasting";
  rows.write(count, [&](NewRow row, std::size_t i) {
    row.add(i).add(std::to_string(i)).add(i % 2 == 0 ? std::optional<int>{} : std::optional(7));
  });
  Statement select(connection, "SELECT a, b, c FROM t ORDER BY rowid");
  std::size_t found = 0;
  for (; select.step(); ++found) {
    CHECK(select.integer(0) == static_cast<std::int64_t>(found));
    CHECK(select.text(1) == std::to_string(found));
    CHECK(select.is_nothing(2) == (found % 2 == 0));
  }
  CHECK(found == count);
  rows.write(1, [&](NewRow row, std::size_t) { row.add(5).add_lasting(lasting).add(0.5); });
  CHECK(connection.number("SELECT count(*) FROM t WHERE b = 'lasting' AND c = 0.5") == 1);
}
