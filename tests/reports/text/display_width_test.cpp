#include "reports/text/display_width.hpp"

#include <catch2/catch.hpp>

#include <string>

namespace insideline::tests {

TEST_CASE("a text is as wide as a terminal shows it") {
  const auto [text, width] = GENERATE(table<std::string, std::size_t>({
      {"", 0},
      {"Bb7", 3},
      {"Café", 4},
      {"Cafe\xCC\x81", 4},  // e and a combining accent
      {"└─┘", 3},
      {"灯台", 4},
      {"\xE9", 1},      // not UTF-8
      {"\xE2\x94", 2},  // cut short
      {"🎷", 2},
  }));
  CAPTURE(text);
  CHECK(reports::display_width(text) == width);
}

TEST_CASE("nothing in a title can drive the terminal") {
  const auto [text, shown] = GENERATE(table<std::string, std::string>({
      {"Lantern Street", "Lantern Street"},
      {"Café 灯", "Café 灯"},
      {"two\nlines\tand a tab", "two lines and a tab"},
      {"\x1b[31mred", "\xEF\xBF\xBD[31mred"},
      {"\xC2\x9B"
       "31m",
       "\xEF\xBF\xBD"
       "31m"},  // the one-character escape of C1
      {"\xE2\x80\xAE"
       "abc",
       "\xEF\xBF\xBD"
       "abc"},  // right-to-left override
      {"bad\xFF", "bad\xEF\xBF\xBD"},
      {"Herring\xE2\x80\xA8Loft\xE2\x80\xA9Two", "Herring Loft Two"},  // separators of lines and paragraphs
  }));
  CHECK(reports::printable(text) == shown);
}

TEST_CASE("a text that is too wide is cut, and says so") {
  CHECK(reports::cut_to_width("Bridge", 6) == "Bridge");
  CHECK(reports::cut_to_width("Bridge", 5) == "Br...");
  CHECK(reports::cut_to_width("灯灯灯灯", 7) == "灯灯...");
  CHECK(reports::cut_to_width("灯灯灯灯", 6) == "灯...");
  CHECK(reports::cut_to_width("a\tb", 8) == "a b");
}

TEST_CASE("padding counts columns, not bytes") {
  CHECK(reports::padded_right("é灯", 5) == "é灯  ");
  CHECK(reports::padded_left("é灯", 5) == "  é灯");
  CHECK(reports::padded_right("too long", 3) == "too long");
}

}  // namespace insideline::tests
