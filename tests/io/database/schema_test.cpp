#include "io/database/schema.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

using insideline::io::Connection;
using insideline::io::DatabaseError;
using insideline::io::prepare_schema;
using insideline::io::schema_step;
using insideline::io::schema_version;

TEST_CASE("a new database gets its tables, its version and the mark of the program") {
  Connection connection("");
  prepare_schema(connection);
  CHECK(connection.number("PRAGMA user_version") == schema_version);
  CHECK(connection.number("PRAGMA application_id") == insideline::io::application_id);
  CHECK(connection.number("SELECT count(*) FROM sqlite_master WHERE name IN ('solos', 'chords', 'notes', 'arpeggios', "
                          "'connections', 'cells', 'figures', 'files')") == 8);
  CHECK_NOTHROW(prepare_schema(connection));
}

TEST_CASE("an older database is brought up to date and keeps what it has") {
  Connection connection("");
  connection.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = 1", insideline::io::application_id));
  connection.run(schema_step(0));
  connection.run("INSERT INTO solos VALUES (1, 'h', 'p', 'f', 'l', 't', 'a', 1, 1, 0, 'm')");
  prepare_schema(connection);
  CHECK(connection.number("PRAGMA user_version") == schema_version);
  CHECK(connection.number("SELECT count(*) FROM solos") == 1);
  CHECK(connection.number("SELECT count(*) FROM files") == 0);
}

TEST_CASE("a database of another program or of a newer version is refused") {
  Connection other("");
  other.run("CREATE TABLE bills (due)");
  CHECK_THROWS_AS(prepare_schema(other), DatabaseError);
  CHECK_THROWS_WITH(prepare_schema(other), Catch::Contains("the database of another program"));
  Connection newer("");
  prepare_schema(newer);
  newer.run("PRAGMA user_version = 99");
  CHECK_THROWS_WITH(prepare_schema(newer), Catch::Contains("a newer version of insideline") && Catch::Contains("99"));
}
