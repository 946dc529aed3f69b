#include "io/read_result.hpp"

#include <stdexcept>
#include <string>

#include <catch2/catch.hpp>

using insideline::io::place_in;
using insideline::io::place_of;
using insideline::io::ReadError;
using insideline::io::Warning;

TEST_CASE("an error shows the place, the line and a caret under the place") {
  const ReadError error(place_in("a.changes", "| C | Xm7 |", 6), "chord \"Xm7\" cannot be read");
  CHECK(std::string(error.what()) ==
        "a.changes:1:7: chord \"Xm7\" cannot be read\n"
        "  | C | Xm7 |\n"
        "        ^");
  CHECK(error.place().line == 1);
  CHECK(error.place().column == 7);
}

TEST_CASE("the caret stands under the first character as well") {
  const ReadError error(place_in("a.changes", "x: y", 0), "not known");
  CHECK(std::string(error.what()) == "a.changes:1:1: not known\n  x: y\n  ^");
}

TEST_CASE("an error about a whole file has no line to show") {
  const ReadError error(place_of("a.changes"), "the file is empty");
  CHECK(std::string(error.what()) == "a.changes: the file is empty");
  CHECK_THROWS_AS(throw error, std::runtime_error);
}

TEST_CASE("a warning is one line") {
  CHECK(to_string(Warning{place_in("a.musicxml", "<a>\n<b>", 4), "bar 7 is half a beat short"}) ==
        "a.musicxml:2:1: bar 7 is half a beat short");
}
