#include "io/source_text.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::io::Place;
using insideline::io::place_in;
using insideline::io::place_of;

TEST_CASE("a place in a text counts lines and characters from one") {
  const std::string text = "| C |\n| Fm7 | G7 |\n";
  const auto [offset, line, column] = GENERATE(table<std::size_t, int, int>({
      {0, 1, 1},
      {2, 1, 3},
      {5, 1, 6},  // the line end belongs to its line
      {6, 2, 1},
      {14, 2, 9},
      {19, 3, 1},   // after the last line end
      {999, 3, 1},  // past the end is the end
  }));
  const Place place = place_in("a.changes", text, offset);
  CHECK(place.line == line);
  CHECK(place.column == column);
}

TEST_CASE("a column is a character, however many bytes it takes") {
  const std::string text = "title: é♭ x";
  const Place place = place_in("a.changes", text, text.find('x'));
  CHECK(place.column == 11);
  CHECK(place.caret == 10);
  CHECK(place.excerpt == text);
}

TEST_CASE("a place shows its line, with tabs and control signs as blanks") {
  const Place place = place_in("a.changes", "one\n\ttwo\x01three\r\nfour", 5);
  CHECK(place.excerpt == " two three ");
  CHECK(place.caret == 1);
}

TEST_CASE("a long line is shortened around the place") {
  const std::string text = std::string(100, 'a') + 'X' + std::string(100, 'b') + "\nnext";
  const Place place = place_in("a.changes", text, 100);
  CHECK(place.column == 101);
  CHECK(place.excerpt.size() == 72);
  REQUIRE(place.caret < 72);
  CHECK(place.excerpt.at(static_cast<std::size_t>(place.caret)) == 'X');
}

TEST_CASE("a shortened line is never cut inside a character") {
  std::string text;
  for (int i = 0; i < 60; ++i) text += "♭";
  for (std::size_t offset = 0; offset <= text.size(); offset += 3) {
    const Place place = place_in("a.changes", text, offset);
    CHECK(place.excerpt.size() % 3 == 0);
    CHECK(place.excerpt.starts_with("♭"));
    CHECK(place.caret * 3 <= static_cast<int>(place.excerpt.size()));
  }
}

TEST_CASE("a place is written as editors read it") {
  CHECK(to_string(place_of("a.changes")) == "a.changes");
  CHECK(to_string(place_in("a.changes", "ab\ncd", 4)) == "a.changes:2:2");
  CHECK(to_string(Place{.file = "a.changes", .line = 3, .column = 0, .excerpt = {}, .caret = 0}) == "a.changes:3");
}

TEST_CASE("an empty text has a place as well") {
  const Place place = place_in("a.changes", "", 0);
  CHECK(place.line == 1);
  CHECK(place.column == 1);
  CHECK(place.excerpt.empty());
}
