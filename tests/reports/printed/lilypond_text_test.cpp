#include "reports/printed/lilypond_text.hpp"

#include "reports/text/display_width.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <string_view>

using insideline::Beats;
using insideline::Key;
using insideline::parse_pitch;
using insideline::Pitch;
using insideline::Step;
using insideline::reports::display_width;
using insideline::reports::fitted;
using insideline::reports::lilypond_key;
using insideline::reports::lilypond_length;
using insideline::reports::lilypond_pitch;
using insideline::reports::lilypond_string;

TEST_CASE("text from a file is one string literal, whatever is in it") {
  const auto [text, literal] = GENERATE(table<std::string, std::string>({
      {"Lantern Street", R"("Lantern Street")"},
      {R"(say "when")", R"("say \"when\"")"},
      {R"(a\b\)", R"("a\\b\\")"},
      {R"(#(system "ls") $x %{ \include "x" })", R"("#(system \"ls\") $x %{ \\include \"x\" }")"},
      {"two\nlines\tand a tab", R"("two lines and a tab")"},
      {"bell\a and \x1b[31m", "\"bell\xEF\xBF\xBD and \xEF\xBF\xBD[31m\""},
      {"bad \xff byte", "\"bad \xEF\xBF\xBD byte\""},
      {"Caf\xC3\xA9 \xF0\x9F\x8E\xB7", "\"Caf\xC3\xA9 \xF0\x9F\x8E\xB7\""},
      {"", "\"\""},
  }));
  CHECK(lilypond_string(text) == literal);
}

TEST_CASE("a literal never ends before its text does") {
  for (int first = 0; first < 256; ++first) {
    const std::string text{static_cast<char>(first), '\\', '"', static_cast<char>(first)};
    const std::string literal = lilypond_string(text);
    bool escaped = false;
    std::size_t closing_quotes = 0;
    for (const char letter : std::string_view(literal).substr(1)) {
      if (letter == '"' && !escaped) ++closing_quotes;
      escaped = letter == '\\' && !escaped;
    }
    INFO("byte " << first);
    CHECK(closing_quotes == 1);
    CHECK(literal.back() == '"');
    CHECK_FALSE(escaped);
  }
}

TEST_CASE("a long title is shortened, and a long word parted so that it wraps") {
  CHECK(fitted("Short", 20) == "Short");
  CHECK(fitted("A title of some length", 10) == "A title o…");
  CHECK(fitted("abcdefghij", 10) == "abcde fghij");
  CHECK(display_width(fitted(std::string(5000, 'x'), 80)) <= 83);
}

TEST_CASE("pitches are written with their accidental and octave") {
  const auto [pitch, written] = GENERATE(table<std::string, std::string>({
      {"C4", "c'"},
      {"Bb3", "bes"},
      {"F#5", "fis''"},
      {"Ebb4", "eeses'"},
      {"G##2", "gisis,"},
      {"Cb4", "ces'"},
  }));
  CHECK(lilypond_pitch(*parse_pitch(pitch)) == written);
}

TEST_CASE("a pitch that no accidental writes is respelled") { CHECK(lilypond_pitch(Pitch{{Step::f, 3}, 4}) == "aes'"); }

TEST_CASE("keys are named by their tonic") {
  const auto [fifths, minor, written] = GENERATE(table<int, bool, std::string>({
      {0, false, "\\key c \\major"},
      {-3, false, "\\key ees \\major"},
      {6, false, "\\key fis \\major"},
      {-7, false, "\\key ces \\major"},
      {0, true, "\\key a \\minor"},
      {-3, true, "\\key c \\minor"},
      {5, true, "\\key gis \\minor"},
      {-6, true, "\\key ees \\minor"},
  }));
  CHECK(lilypond_key(Key{fifths, minor}) == written);
}

TEST_CASE("lengths of rows are fractions of a quarter") {
  CHECK(lilypond_length(Beats(1, 2)) == "4*1/2");
  CHECK(lilypond_length(Beats(4)) == "4*4");
}
