#include "reports/html/markup.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::reports::drawn;
using insideline::reports::element;
using insideline::reports::escaped;
using insideline::reports::lone_element;
using insideline::reports::Markup;
using insideline::reports::shape;
using insideline::reports::text;
using insideline::reports::with_accidentals;

TEST_CASE("text from a file is shown and never run") {
  const auto [plain, shown] = GENERATE(table<std::string, std::string>({
      {"Blue Quay", "Blue Quay"},
      {"<script>alert(1)</script>", "&lt;script&gt;alert(1)&lt;/script&gt;"},
      {"Tom & \"Jerry's\"", "Tom &amp; &quot;Jerry&#39;s&quot;"},
      {"&lt;", "&amp;lt;"},
      {"#(system \"ls\") \\n", "#(system &quot;ls&quot;) \\n"},
      {"Möwe 🎷 夜", "Möwe 🎷 夜"},
      {"two\nlines\tand a tab", "two\nlines\tand a tab"},
      {std::string("a\0b", 3), "a\uFFFDb"},
      {"a\x1b[1mb\x7f", "a\uFFFD[1mb\uFFFD"},
      {"\xff\xfe", "\uFFFD\uFFFD"},                      // no UTF-8 at all
      {"\xc0\xaf", "\uFFFD\uFFFD"},                      // "/" in two bytes
      {"\xe2\x99", "\uFFFD\uFFFD"},                      // cut off
      {"\xed\xa0\x80", "\uFFFD\uFFFD\uFFFD"},            // half of a surrogate pair
      {"\xf4\x90\x80\x80", "\uFFFD\uFFFD\uFFFD\uFFFD"},  // beyond the last character
      {"\xc2\x85", "\uFFFD\uFFFD"},                      // a control character of Latin-1
      {"\xef\xbf\xbf", "\uFFFD\uFFFD\uFFFD"},            // no character
      {"", ""},
  }));
  CAPTURE(plain);
  CHECK(escaped(plain) == shown);
  CHECK(text(plain).html() == shown);
}

TEST_CASE("elements escape their attributes and their plain content") {
  CHECK(element("p", "a < b").html() == "<p>a &lt; b</p>");
  CHECK(element("a", {{"href", "#n1"}, {"title", "\" onclick=\"x"}}, "go").html() ==
        "<a href=\"#n1\" title=\"&quot; onclick=&quot;x\">go</a>");
  CHECK(element("ul", element("li", "1") + element("li", "2")).html() == "<ul><li>1</li><li>2</li></ul>");
  CHECK(element("p", {{"", "left out"}, {"class", "x"}}, "").html() == "<p class=\"x\"></p>");
  CHECK(lone_element("input", {{"checked", ""}}).html() == "<input checked>");
  CHECK(lone_element("input", {{"type", "checkbox"}}).html() == "<input type=\"checkbox\">");
  CHECK(shape("rect", {{"width", "3"}}).html() == "<rect width=\"3\"/>");
  CHECK(Markup().empty());
}

TEST_CASE("numbers are drawn with at most one decimal") {
  const auto [number, drawn_number] = GENERATE(table<double, std::string>({
      {0.0, "0"},
      {12.0, "12"},
      {12.34, "12.3"},
      {12.36, "12.4"},
      {-0.04, "0"},
      {-3.5, "-3.5"},
      {99.96, "100"},
      {1e6, "1000000"},
  }));
  CHECK(drawn(number) == drawn_number);
}

TEST_CASE("degrees are shown with printed accidentals") {
  const auto [degree, shown] = GENERATE(table<std::string, std::string>({
      {"b9", "♭9"},
      {"#11", "♯11"},
      {"bb7", "♭♭7"},
      {"5", "5"},
      {"(b9)", "(♭9)"},
      {"[#9]\u00bb", "[♯9]»"},
      {"-", "-"},
  }));
  CHECK(with_accidentals(degree) == shown);
}
