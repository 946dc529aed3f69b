#include "io/database/schema.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <string>

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

TEST_CASE("in a database of version 4 all that a solo has many of is there as before, now as a list") {
  Connection connection("");
  connection.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = 4", insideline::io::application_id));
  for (int step = 0; step < 4; ++step) connection.run(schema_step(step));
  connection.run(
      "INSERT INTO solos VALUES (1, 'h', 'p', 'f', 'l', 't', 'a', 1, 1, 3, 'm'), (2, 'i', 'q', 'f', 'l', 't', 'a', 1, "
      "1, 0, 'm');"
      "INSERT INTO chords VALUES (1, 1, 'G7(\"b9\")', 'dominant', 4, 4, 2, 1), (1, 0, 'C', 'major', 0, 4, 1, 1);"
      "INSERT INTO notes VALUES (1, 1, 2, 4.5, 0.25, 67, 'G4', NULL, 1, '1', 'chord tone', 'root', 'anticipation', "
      "0.75), (1, 0, 1, 0, 1, 64, 'E4', 0, 0, '3', 'chord tone', 'third', 'in place', 1);"
      "INSERT INTO arpeggios VALUES (1, 0, 1, 0, '5-3-1', 'descending', 'root position', 3, 0, 1, 1, 2, 4);"
      "INSERT INTO connections VALUES (1, 0, 0, 1, 0, NULL, -2, 'whole step', 1, NULL);"
      "INSERT INTO cells VALUES (1, '3-5', 'ascending', 'major', 6)");
  const auto has = [&](const std::string& rows) { return connection.number("SELECT count(*) FROM " + rows); };
  const auto expect_all = [&] {
    CHECK(has("chords") == 2);
    CHECK(has("chords WHERE (solo, number, symbol, quality, onset, duration, bar, chorus) = "
              "(1, 1, 'G7(\"b9\")', 'dominant', 4, 4, 2, 1)") == 1);
    CHECK(has("notes") == 2);
    CHECK(has("notes WHERE (solo, number, bar, onset, duration, midi, name, governor, degree, role, figure, placement, "
              "confidence) = (1, 1, 2, 4.5, 0.25, 67, 'G4', 1, '1', 'chord tone', 'root', 'anticipation', 0.75) AND "
              "chord IS NULL") == 1);
    CHECK(has("notes WHERE (number, chord) = (0, 0)") == 1);
    CHECK(has("notes WHERE typeof(onset) = 'real' AND typeof(midi) = 'integer'") == 2);
    CHECK(has("arpeggios WHERE (solo, number, first_note, chord, shape, direction, inversion, members, ornaments, "
              "complete, straight_descent, legs_up, legs_down) = "
              "(1, 0, 1, 0, '5-3-1', 'descending', 'root position', 3, 0, 1, 1, 2, 4)") == 1);
    CHECK(has("connections WHERE (solo, number, from_chord, to_chord, from_note, semitones, kind, guide_tone) = "
              "(1, 0, 0, 1, 0, -2, 'whole step', 1) AND to_note IS NULL AND took_nearest IS NULL") == 1);
    CHECK(has("cells WHERE (solo, degrees, direction, quality, count) = (1, '3-5', 'ascending', 'major', 6)") == 1);
  };
  expect_all();
  prepare_schema(connection);
  expect_all();
  CHECK(has("lists") == 2);
  CHECK(
      has("sqlite_master WHERE type = 'table' AND name IN ('chords', 'notes', 'arpeggios', 'connections', 'cells')") ==
      0);
}

TEST_CASE("in a database of version 5 the figures are there as before, now as a list, and notes keep their words") {
  Connection connection("");
  connection.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = 5", insideline::io::application_id));
  for (int step = 0; step < 5; ++step) connection.run(schema_step(step));
  connection.run(
      "INSERT INTO solos VALUES (1, 'h', 'p', 'f', 'l', 't', 'a', 1, 1, 1, 'm'), (2, 'i', 'q', 'f', 'l', 't', 'a', 1, "
      "1, 0, 'm');"
      "INSERT INTO lists VALUES (1, '[[\"C\",\"major\",0,4,1,1]]', "
      "'[[1,0,1,67,\"G4\",0,0,\"5\",\"chord tone\",\"fifth\",\"in place\",0.75]]', '[]', '[]', '[]'), "
      "(2, '[]', '[]', '[]', '[]', '[]');"
      "INSERT INTO figures VALUES (1, 'roots', 1, 4, 0.25), (1, 'outside', 0, 0, NULL)");
  const auto has = [&](const std::string& rows) { return connection.number("SELECT count(*) FROM " + rows); };
  const auto expect_all = [&] {
    CHECK(has("figures") == 2);
    CHECK(has("figures WHERE (solo, figure, part, whole, value) = (1, 'roots', 1, 4, 0.25)") == 1);
    CHECK(has("figures WHERE (solo, figure, part, whole) = (1, 'outside', 0, 0) AND value IS NULL") == 1);
    CHECK(has("chords WHERE symbol = 'C'") == 1);
    CHECK(has("notes WHERE (role, figure, placement, confidence) = ('chord tone', 'fifth', 'in place', 0.75)") == 1);
  };
  expect_all();
  prepare_schema(connection);
  expect_all();
  CHECK(has("lists") == 2);
  CHECK(has("sqlite_master WHERE type = 'table' AND name = 'figures'") == 0);
  CHECK(has("pragma_foreign_key_check") == 0);
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
