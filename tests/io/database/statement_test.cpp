#include "io/database/statement.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>

using insideline::io::Batch;
using insideline::io::Connection;
using insideline::io::DatabaseError;
using insideline::io::Statement;
using insideline::io::Transaction;

TEST_CASE("values come back as they were given, line breaks and nothing included") {
  Connection connection("");
  connection.run("CREATE TABLE t (a, b, c, d, e)");
  Statement insert(connection, "INSERT INTO t VALUES (?1, ?2, ?3, ?4, ?5)");
  const std::string odd("it's\n\0\"odd\"", 11);
  insert.bind(1, 7).bind(2, 0.25).bind(3, odd).bind(4, std::optional<int>{}).bind(5, std::string_view{}).run();
  Statement select(connection, "SELECT * FROM t");
  REQUIRE(select.step());
  CHECK(select.integer(0) == 7);
  CHECK(select.real(1) == Approx(0.25));
  CHECK(select.text(2) == odd);
  CHECK(select.is_nothing(3));
  CHECK_FALSE(select.is_nothing(4));
  CHECK(select.text(4).empty());
  CHECK_FALSE(select.step());
  CHECK(select.step());  // from the beginning
}

TEST_CASE("a transaction that is not committed never was") {
  Connection connection("");
  connection.run("CREATE TABLE t (a)");
  {
    const Transaction dropped(connection);
    connection.run("INSERT INTO t VALUES (1)");
  }
  CHECK(connection.number("SELECT count(*) FROM t") == 0);
  {
    Transaction kept(connection);
    connection.run("INSERT INTO t VALUES (1)");
    kept.commit();
  }
  CHECK(connection.number("SELECT count(*) FROM t") == 1);
}

TEST_CASE("a piece of work that fails takes back what was not committed before it, and what follows is kept") {
  Connection connection("");
  connection.run("CREATE TABLE t (a)");
  {
    Batch batch(connection);
    for (int i = 0; i < 25; ++i) batch.add([&] { connection.run("INSERT INTO t VALUES (1)"); });
    CHECK_THROWS_AS(batch.add([&] {
      connection.run("INSERT INTO t VALUES (2)");
      connection.run("SELECT nonsense");
    }),
                    DatabaseError);
    CHECK(connection.number("SELECT count(*) FROM t") == 20);
    batch.add([&] { connection.run("INSERT INTO t VALUES (3)"); });
  }
  CHECK(connection.number("SELECT count(*) FROM t") == 21);
  CHECK(connection.number("SELECT count(*) FROM t WHERE a = 2") == 0);
}

TEST_CASE("what SQLite refuses is told with the name of the database") {
  Connection connection("");
  CHECK_THROWS_AS(connection.run("SELECT nonsense"), DatabaseError);
  CHECK_THROWS_WITH(connection.run("SELECT nonsense"), Catch::StartsWith("the temporary database: no such column"));
  CHECK_THROWS_WITH(Connection("/no/such/folder/solos.db"),
                    Catch::Contains("/no/such/folder/solos.db: ") && Catch::Contains("it cannot be opened"));
}
