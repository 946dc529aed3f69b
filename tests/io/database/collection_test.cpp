#include "io/database/collection.hpp"

#include "io/database/statement.hpp"
#include "io/file_bytes.hpp"
#include "tests/support/own_folder.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

using insideline::Figure;
using insideline::Placement;
using insideline::Role;
using insideline::SoloRows;
using insideline::io::Collection;
using insideline::io::Connection;
using insideline::io::content_hash;
using insideline::io::solo_texts;
using insideline::io::SoloTexts;
using insideline::io::StoredSolo;

namespace {

SoloRows rows_of(const std::string& title, double chord_tones) {
  SoloRows rows;
  rows.title = title;
  rows.bars = 12;
  rows.chords.push_back({.symbol = "C7", .quality = "dominant", .onset = 0.0, .duration = 4.0, .bar = 1, .chorus = 1});
  rows.notes.resize(2);
  rows.notes[0].name = "E4";
  rows.notes[0].chord = 0;
  rows.notes[0].governor = 0;
  rows.arpeggios.resize(1);
  rows.arpeggios[0].shape = "3-5-b7";
  rows.cells.push_back({.degrees = "3-5", .direction = {}, .quality = "dominant", .count = 4});
  rows.figures.push_back({.key = "chord_tones", .part = chord_tones, .whole = 1.0, .value = chord_tones});
  rows.figures.push_back({.key = "outside", .part = 0.0, .whole = 0.0, .value = {}});
  return rows;
}

SoloTexts texts_of(const std::string& title, double chord_tones) {
  return solo_texts(rows_of(title, chord_tones), title);
}

StoredSolo solo_at(const std::string& path, const std::string& content) {
  return {.hash = content_hash(content), .place = {path, "folder", "player"}, .made_with = "1"};
}

std::vector<std::vector<insideline::SoloValue>> values_of(Collection& collection,
                                                          const std::vector<std::string_view>& figures) {
  return collection.values(figures);
}

}  // namespace

TEST_CASE("a solo comes back from the database as it was stored") {
  Collection collection("");
  const StoredSolo solo = solo_at("b.mid", "one");
  collection.store(solo, texts_of("it's \"one\"\n", 0.75), "stamp");
  const auto found = collection.stored(solo.hash);
  REQUIRE(found);
  CHECK(found->place.path == "b.mid");
  CHECK(found->made_with == "1");
  const auto solos = collection.solos();
  REQUIRE(solos.size() == 1);
  CHECK(solos[0].title == "it's \"one\"\n");
  CHECK(solos[0].notes == 2);
  const auto known = collection.known_file("b.mid");
  REQUIRE(known);
  CHECK(known->stamp == "stamp");
  CHECK(known->hash == solo.hash);
  CHECK_FALSE(collection.known_file("c.mid"));
  const auto several = collection.known_files(std::vector<std::string>{"c.mid", "b.mid"});
  REQUIRE(several.size() == 2);
  CHECK_FALSE(several[0]);
  CHECK(several[1]->stamp == "stamp");
  CHECK_FALSE(collection.stored(content_hash("two")));
}

TEST_CASE("who asks the database finds a solo's chords, notes, arpeggios, connections and cells as rows") {
  const insideline::tests::OwnFolder folder;
  const std::string file = folder.file("solos.db");
  SoloRows rows = rows_of("one", 0.75);
  rows.chords[0].symbol = "G:7(\"b8\",*5)";
  rows.notes[1].onset = 1.0 / 3.0;
  rows.notes[1].confidence = 0.87634;
  rows.connections.resize(1);
  rows.connections[0].from_note = 1;
  rows.connections[0].semitones = -3;
  rows.connections[0].took_nearest = false;
  {
    Collection collection(file);
    collection.store(solo_at("b.mid", "one"), solo_texts(rows, "b.mid"), "");
    collection.finish();
  }
  Connection connection(file);
  const auto has = [&](const std::string& found) { return connection.number("SELECT count(*) FROM " + found); };
  CHECK(has("solos JOIN chords ON chords.solo = solos.id WHERE number = 0 AND symbol = 'G:7(\"b8\",*5)' AND duration = "
            "4.0 AND chorus = 1") == 1);
  CHECK(has("notes") == 2);
  CHECK(has("notes WHERE number = 0 AND name = 'E4' AND chord = 0 AND governor = 0 AND role = 'no chord'") == 1);
  CHECK(
      has("notes WHERE number = 1 AND abs(onset - 1.0 / 3) < 1e-15 AND confidence = 0.8763 AND chord IS NULL AND midi "
          "= 60") == 1);
  CHECK(has("figures") == 2);
  CHECK(has("figures WHERE figure = 'chord_tones' AND part = 0.75 AND whole = 1.0 AND value = 0.75") == 1);
  CHECK(has("figures WHERE figure = 'outside' AND whole = 0.0 AND value IS NULL") == 1);
  CHECK(has("notes WHERE typeof(onset) = 'real' AND typeof(confidence) = 'real' AND typeof(bar) = 'integer'") == 2);
  CHECK(has("arpeggios WHERE shape = '3-5-b7' AND direction = 'mixed' AND inversion = 'root position'") == 1);
  CHECK(has("connections WHERE from_note = 1 AND to_note IS NULL AND semitones = -3 AND kind = 'none' AND took_nearest "
            "= 0") == 1);
  CHECK(has("cells WHERE degrees = '3-5' AND direction = 'ascending' AND quality = 'dominant' AND count = 4") == 1);
}

TEST_CASE("values and frequencies are over all solos, in the order of their places") {
  Collection collection("");
  collection.store(solo_at("b.mid", "one"), texts_of("one", 0.75), "");
  collection.store(solo_at("a.mid", "two"), texts_of("two", 0.5), "");
  const auto values = values_of(collection, {"outside", "chord_tones", "no_such_figure"});
  REQUIRE(values.size() == 3);
  CHECK(values[0].empty());
  REQUIRE(values[1].size() == 2);
  CHECK(values[1][0].solo == 0);
  CHECK(values[1][0].value == Approx(0.5));
  CHECK(values[1][1].solo == 1);
  CHECK(values[1][1].value == Approx(0.75));
  CHECK(values[2].empty());
  const auto totals = collection.totals();
  CHECK(totals.solos == 2);
  CHECK(totals.players == 1);
  CHECK(totals.folders == 1);
  CHECK(totals.bars == 24);
  CHECK(totals.notes == 4);
  const auto cells = collection.frequent_cells(5);
  REQUIRE(cells.size() == 1);
  CHECK(cells[0].count == 8);
  CHECK(cells[0].solos == 2);
  CHECK(collection.frequent_arpeggios(5).at(0).name == "3-5-b7");
}

TEST_CASE("a solo under the same place takes the place of what was there, under the same content its own") {
  Collection collection("");
  collection.store(solo_at("a.mid", "before"), texts_of("before", 0.1), "");
  collection.store(solo_at("a.mid", "after"), texts_of("after", 0.2), "");
  collection.store(solo_at("a.mid", "after"), texts_of("after, again", 0.3), "");
  const auto solos = collection.solos();
  REQUIRE(solos.size() == 1);
  CHECK(solos[0].title == "after, again");
  const auto values = values_of(collection, {"chord_tones"});
  REQUIRE(values.at(0).size() == 1);
  CHECK(values[0][0].value == Approx(0.3));
}

TEST_CASE("rows that do not fit together are refused before anything is stored") {
  SoloRows wrong = rows_of("wrong", 0.5);
  wrong.notes[0].chord = 7;
  CHECK_THROWS_AS(solo_texts(wrong, "a.mid"), insideline::io::DatabaseError);
  CHECK_THROWS_WITH(solo_texts(wrong, "a.mid"), Catch::Contains("a.mid: its rows name a chord or a note that it does "
                                                                "not have"));
  wrong = rows_of("wrong", 0.5);
  wrong.arpeggios[0].first_note = 2;
  CHECK_THROWS_AS(solo_texts(wrong, "a.mid"), insideline::io::DatabaseError);
  wrong = rows_of("wrong", 0.5);
  wrong.connections.resize(1);
  wrong.connections[0].to_note = 2;
  CHECK_THROWS_AS(solo_texts(wrong, "a.mid"), insideline::io::DatabaseError);
}

TEST_CASE("every role, figure and placement of a note is told in the words of the program") {
  const insideline::tests::OwnFolder folder;
  const std::string file = folder.file("solos.db");
  SoloRows rows = rows_of("one", 0.5);
  constexpr std::size_t figures = static_cast<std::size_t>(Figure::none) + 1;
  rows.notes.resize(figures);
  for (std::size_t i = 0; i < figures; ++i) {
    rows.notes[i].figure = static_cast<Figure>(i);
    rows.notes[i].role = static_cast<Role>(i % (static_cast<std::size_t>(Role::no_chord) + 1));
    rows.notes[i].placement = static_cast<Placement>(i % (static_cast<std::size_t>(Placement::retardation) + 1));
  }
  {
    Collection collection(file);
    collection.store(solo_at("b.mid", "one"), solo_texts(rows, "b.mid"), "");
    collection.finish();
  }
  Connection connection(file);
  insideline::io::Statement notes(connection, "SELECT role, figure, placement FROM notes ORDER BY number");
  for (const insideline::NoteEntry& note : rows.notes) {
    REQUIRE(notes.step());
    CHECK(notes.text(0) == to_string(note.role));
    CHECK(notes.text(1) == to_string(note.figure));
    CHECK(notes.text(2) == to_string(note.placement));
  }
  CHECK_FALSE(notes.step());
}

TEST_CASE("what is stored twenty at a time is there to the last solo, and nothing refers to what is gone") {
  const insideline::tests::OwnFolder folder;
  const std::string file = folder.file("solos.db");
  {
    Collection collection(file);
    for (int i = 0; i < 47; ++i)
      collection.store(solo_at(std::to_string(i) + ".mid", std::to_string(i)), texts_of("one", 0.5), "");
    for (int i = 0; i < 5; ++i)  // another content in the same place
      collection.store(solo_at(std::to_string(i) + ".mid", "new " + std::to_string(i)), texts_of("two", 0.5), "");
  }
  {
    Connection connection(file);
    CHECK(connection.number("SELECT count(*) FROM solos") == 47);
    CHECK(connection.number("SELECT count(*) FROM solos WHERE title = 'two'") == 5);
    for (const std::string table : {"chords", "notes", "arpeggios", "cells", "figures", "files"})
      CHECK(connection.number("SELECT count(*) FROM " + table + " WHERE solo NOT IN (SELECT id FROM solos)") == 0);
    CHECK(connection.number("SELECT count(*) FROM pragma_foreign_key_check") == 0);
  }
}

TEST_CASE(
    "who only asks what is stored leaves the database as it is, byte for byte, and the log begins with the first "
    "writing") {
  const insideline::tests::OwnFolder folder;
  const std::string file = folder.file("solos.db");
  const StoredSolo solo = solo_at("b.mid", "one");
  {
    Collection collection(file);
    collection.store(solo, texts_of("one", 0.5), "first");
    collection.finish();
  }
  const std::string bytes = insideline::io::read_bytes(file, 10'000'000);
  {
    Collection collection(file);
    CHECK(collection.known_file("b.mid")->stamp == "first");
    CHECK(collection.stored(solo.hash));
    collection.finish();
    CHECK(collection.totals().solos == 1);
  }
  CHECK(insideline::io::read_bytes(file, 10'000'000) == bytes);
  Collection collection(file);
  CHECK_FALSE(std::filesystem::exists(file + "-wal"));
  collection.remember("a.mid", "second", solo.hash);
  CHECK(std::filesystem::exists(file + "-wal"));
  CHECK(Connection(file).number("SELECT count(*) FROM files") == 2);
}

TEST_CASE("a copy can be remembered and a solo moved") {
  Collection collection("");
  const StoredSolo solo = solo_at("b.mid", "one");
  collection.store(solo, texts_of("one", 0.5), "first");
  collection.remember("a.mid", "second", solo.hash);
  collection.move(solo.hash, {"a.mid", "elsewhere", "other"});
  REQUIRE(collection.known_file("a.mid"));
  CHECK(collection.known_file("b.mid")->path_of_solo == "a.mid");
  CHECK(collection.solos().at(0).place.player == "other");
}
