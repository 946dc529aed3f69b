#include "tests/io/musicxml/score_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <string_view>

using insideline::io::parse_musicxml;
using insideline::tests::refusal_of;
using insideline::tests::score_xml;
using std::string;

namespace {

string score_titled(const string& declaration, const string& title) {
  string xml = score_xml("C4:4");
  return declaration + xml.insert(xml.find("<part-list>"), "<work><work-title>" + title + "</work-title></work>");
}

/// ASCII text and U+00E9 (typed as "\xE9") as UTF-16.
string as_utf16(const string& latin1, bool big_endian, bool with_mark) {
  string bytes;
  if (with_mark) bytes = big_endian ? "\xFE\xFF" : "\xFF\xFE";
  for (const char c : latin1) {
    if (big_endian) bytes += '\0';
    bytes += c;
    if (!big_endian) bytes += '\0';
  }
  return bytes;
}

constexpr std::string_view etude = "\xC3\x89tude";  // in UTF-8
const string latin1_etude = "\xC9tude";

}  // namespace

TEST_CASE("titles come in whole from every encoding scores are written in") {
  const string declared_latin1 = "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>";
  const string declared_utf16 = "<?xml version=\"1.0\" encoding=\"UTF-16\"?>";
  const string bytes = GENERATE_COPY(
      score_titled("", string(etude)), score_titled("<?xml version=\"1.0\" encoding=\"utf-8\"?>", string(etude)),
      score_titled("\xEF\xBB\xBF<?xml version='1.0' encoding='UTF-8'?>", string(etude)),
      score_titled(declared_latin1, latin1_etude), as_utf16(score_titled(declared_utf16, latin1_etude), false, true),
      as_utf16(score_titled(declared_utf16, latin1_etude), true, true),
      as_utf16(score_titled(declared_utf16, latin1_etude), false, false),
      as_utf16(score_titled("", latin1_etude), true, false),
      score_titled(declared_utf16, string(etude)));  // a wrong label on UTF-8
  CHECK(parse_musicxml(bytes, "solo.musicxml").solo.title == etude);
}

TEST_CASE("a pair of UTF-16 units is one character, half a pair is refused") {
  const string pair("\x34\xD8\x1E\xDD", 4);  // U+1D11E, the G clef
  const string text = score_titled("", "#");
  string bytes = as_utf16(text, false, true);
  const std::size_t place = bytes.find('#');
  CHECK(parse_musicxml(string(bytes).replace(place, 2, pair), "solo.musicxml").solo.title == "\xF0\x9D\x84\x9E");
  CHECK(refusal_of(string(bytes).replace(place, 2, pair.substr(0, 2))).find("breaks off inside a character") !=
        string::npos);
}

TEST_CASE("bytes that are not UTF-8 are refused at their place") {
  const string bad = GENERATE(string("\x80"), string("\xC0\xAF"), string("\xE0\x80\x80"), string("\xED\xA0\x80"),
                              string("\xF4\x90\x80\x80"), string("\xF8\x88\x80\x80\x80"), string("\xE2\x82"));
  CHECK(refusal_of(score_titled("", bad)).find("is not UTF-8") != string::npos);
}
