#include "io/musicxml/xml_text.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>

using insideline::io::attribute_of;
using insideline::io::blank_before;
using insideline::io::escaped;
using std::string;
using std::tuple;

TEST_CASE("text is quoted so that any encoding can hold it") {
  const auto [text, expected] = GENERATE(table<string, string>({
      {"b7", "b7"},
      {"a & b < c > \"d\"", "a &amp; b &lt; c &gt; &quot;d&quot;"},
      {"3\xC2\xBB", "3&#187;"},
      {"\xE2\x99\xAD", "&#9837;"},
      {"\xF0\x9D\x84\x9E", "&#119070;"},
      {"a\nb\x01", "a b "},
      {"", ""},
  }));
  CHECK(escaped(text) == expected);
}

TEST_CASE("an attribute of a raw tag is found by its whole name") {
  const auto [tag, expected] = GENERATE(table<string, string>({
      {"<lyric number=\"2\">", "2"},
      {"<lyric number = '2' >", "2"},
      {"<lyric x-number=\"1\" number=\"2\">", "2"},
      {"<lyric name=\"number=3\" number=\"2\">", "2"},
      {"<lyric\n\tname=\"a\"\n\tnumber=\"2\"/>", "2"},
      {"<lyric>", ""},
      {"<lyric number=\"2>", ""},
  }));
  CHECK(attribute_of(tag, "number") == expected);
}

TEST_CASE("the white space before a place is what stands between it and the last character") {
  CHECK(blank_before("<a>\r\n  <b>", 7) == "\r\n  ");
  CHECK(blank_before("<a><b>", 3).empty());
  CHECK(blank_before("  <b>", 2) == "  ");
}
