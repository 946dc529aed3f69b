#include "io/musicxml/bracket_lines.hpp"

#include "tests/io/musicxml/score_shorthand.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <string>
#include <tuple>
#include <vector>

using insideline::io::BracketInk;
using insideline::io::ScoreInk;
using insideline::tests::score_xml;
using std::string;
using std::tuple;

namespace {

/// "[1 up ... n" with every note of the solo as "n": where brackets begin ("[" number, text) and end ("]" number).
string drawn(const string& line, const std::vector<BracketInk>& brackets, std::vector<std::size_t> solo = {}) {
  const string score = score_xml(line);
  ScoreInk ink{{}, brackets};
  if (solo.empty())
    for (const auto& note : insideline::io::parse_musicxml(score, "x").solo.notes) solo.push_back(note.place.element);
  for (const std::size_t element : solo) ink.notes.push_back({element, "", ""});
  const string xml = insideline::io::annotated_score(score, "solo.musicxml", ink);
  static const std::regex seen(
      "<note>(<chord/>)?|<words>([^<]*)</words>|type=\"(start|stop)\" number=\"(\\d)\"|(<staff>2</staff></direction>)");
  string picture;
  for (auto at = std::sregex_iterator(xml.begin(), xml.end(), seen); at != std::sregex_iterator(); ++at) {
    const std::smatch& found = *at;
    const string kind = found[3];
    picture += picture.empty() ? "" : " ";
    if (!kind.empty())
      picture += (kind == "start" ? "[" : "]") + found[4].str();
    else if (found[5].matched)
      picture += "staff2";
    else if (found[2].matched)
      picture += found[2].str();
    else
      picture += found[1].matched ? "+" : "n";
  }
  return picture;
}

}  // namespace

TEST_CASE("a bracket begins before its first note and ends behind its last one") {
  const auto [line, elements, expected] = GENERATE(table<string, std::vector<std::size_t>, string>({
      {"C4:1 E4:1 G4:1 B4:1", {1, 2, 3}, "n up [1 n n n ]1"},
      {"C4:1 E4:1 | G4:1 B4:1", {0, 1, 2}, "up [1 n n n ]1 n"},      // over a bar line
      {"C4:1 r:1 E4:1 G4:1", {0, 2, 3}, "up [1 n n n n ]1"},         // a rest inside
      {"C4:1 +E4:1 G4:1 +B4:1 C5:1", {1, 3}, "up [1 n + n + ]1 n"},  // never inside of a chord
      {"C4:1 E4:1 G4:1 B4:1", {2}, "n n up n n"},                    // one note has no bracket
      {"C4:1 E4:1 G4:1 B4:1", {2, 3, 0}, "n n up n n"},              // a jump back: the words alone
      {"C4:1 E4:1 G4:1 B4:1", {0, 1, 3}, "up n n n n"},              // a jump over notes of the solo
      {"C4:1 E4:1 G4:1 B4:1", {}, "n n n n"},
      {"C4:1 E4:1 "
       "{<note><pitch><step>G</step><octave>4</octave></pitch><duration>12</duration><staff>2</staff></note>}",
       {0, 2},
       "up n n n"},
  }));
  CHECK(drawn(line, {{elements, "up"}}) == expected);
}

TEST_CASE("brackets that meet or overlap have different numbers, and a number is free again after its end") {
  CHECK(drawn("C4:1 E4:1 G4:1 B4:1", {{{0, 1}, "a"}, {{1, 2}, "b"}, {{2, 3}, "c"}}) ==
        "a [1 n b [2 n ]1 c [1 n ]2 n ]1");
  CHECK(drawn("C4:1 E4:1 G4:1 B4:1", {{{2, 3}, "b"}, {{0, 1}, "a"}}) == "a [1 n n ]1 b [1 n n ]1");
  const std::vector<BracketInk> eight = {{{0, 1}, "a"}, {{0, 1}, "b"}, {{0, 1}, "c"}, {{0, 1}, "d"},
                                         {{0, 1}, "e"}, {{0, 1}, "f"}, {{0, 1}, "g"}};
  CHECK(drawn("C4:1 E4:1", eight) == "a [1 b [2 c [3 d [4 e [5 f [6 g n n ]1 ]2 ]3 ]4 ]5 ]6");
}

TEST_CASE("a bracket that every pass draws alike is drawn once") {
  CHECK(drawn("C4:1 E4:1", {{{0, 1}, "up 1-3"}, {{0, 1}, "up 1-3"}}) == "up 1-3 [1 n n ]1");
  CHECK(drawn("C4:1 E4:1", {{{0, 1}, "up 1-3"}, {{0, 1}, "up 5-b7"}}) == "up 1-3 [1 up 5-b7 [2 n n ]1 ]2");
}

TEST_CASE("a bracket stands on the staff of its notes") {
  const string low =
      "{<note><pitch><step>G</step><octave>3</octave></pitch><duration>12</duration><staff>2</staff></note>} ";
  CHECK(drawn(low + low, {{{0, 1}, "up"}}, {0, 1}) == "up [1 staff2 n n ]1 staff2");
}
