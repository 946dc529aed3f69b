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

TEST_CASE("in a database of version 2 a descent straight down gets its name of today, and the old name is gone") {
  Connection connection("");
  connection.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = 2", insideline::io::application_id));
  connection.run(schema_step(0));
  connection.run(schema_step(1));
  connection.run(
      "INSERT INTO solos VALUES (1, 'h', 'p', 'f', 'l', 't', 'a', 1, 1, 3, 'm');"
      "INSERT INTO chords VALUES (1, 0, 'C', 'major', 0, 4, 1, 1);"
      "INSERT INTO notes VALUES (1, 0, 1, 0, 1, 67, 'G4', 0, 0, '5', 'chord tone', 'fifth', 'in place', 1);"
      "INSERT INTO arpeggios VALUES (1, 0, 0, 0, '5-3-1', 'descending', 'root position', 3, 0, 1, 1);"
      "INSERT INTO figures VALUES (1, 'unprepared_descents', 1, 1, 1)");
  prepare_schema(connection);
  CHECK(connection.number("SELECT straight_descent FROM arpeggios") == 1);
  CHECK(connection.number("SELECT value FROM figures WHERE figure = 'straight_descents'") == 1);
  CHECK(connection.number("SELECT count(*) FROM figures") == 1);
  CHECK(connection.number("SELECT count(*) FROM sqlite_master WHERE sql LIKE '%unprepared%'") == 0);
}

TEST_CASE("a database that counted arpeggios by whole fragments is read again when it is next surveyed") {
  Connection connection("");
  connection.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = 3", insideline::io::application_id));
  for (int step = 0; step < 3; ++step) connection.run(schema_step(step));
  connection.run(
      "INSERT INTO solos VALUES (1, 'h', 'p', 'f', 'l', 't', 'a', 1, 1, 3, 'm');"
      "INSERT INTO chords VALUES (1, 0, 'C', 'major', 0, 4, 1, 1);"
      "INSERT INTO notes VALUES (1, 0, 1, 0, 1, 67, 'G4', 0, 0, '5', 'chord tone', 'fifth', 'in place', 1);"
      "INSERT INTO arpeggios VALUES (1, 0, 0, 0, '5-3-1', 'descending', 'root position', 3, 0, 1, 1)");
  prepare_schema(connection);
  CHECK(connection.number("SELECT count(*) FROM solos WHERE made_with = 'm'") == 0);
  CHECK(connection.number("SELECT legs_up + legs_down FROM arpeggios") == 0);
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
