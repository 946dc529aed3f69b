#include "analyzer/tritone_substitutes.hpp"

#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::find_tritone_substitutes;
using insideline::tests::analysed;
using insideline::tests::in_lengths_of;

namespace {

/// "2-4": the notes of each, counted from 1.
std::string substitutes_in(const std::string& chords, const std::string& melody) {
  const auto line = analysed(chords, in_lengths_of("1/2", melody));
  std::string text;
  for (const auto& found : find_tritone_substitutes(line.heard, line.analysis.harmony))
    text += std::to_string(found.first + 1) + "-" + std::to_string(found.last + 1) + " ";
  return text;
}

}  // namespace

TEST_CASE("three notes or more of the dominant a tritone away are the tritone substitute") {
  CHECK(substitutes_in("G7@0", "D5 Db5 F5 Ab5 G5") == "2-4 ");
  CHECK(substitutes_in("G7@0", "Ab4 F4 Db4 Cb4") == "1-4 ");
  CHECK(substitutes_in("C7@0", "Gb4 Bb4 Db5 E5") == "1-4 ");
}

TEST_CASE("third and seventh are of both chords: without root and fifth of the other there is no substitute") {
  CHECK(substitutes_in("G7@0", "B4 F5 B4 F5").empty());
  CHECK(substitutes_in("G7@0", "F4 Ab4 B4 D5").empty());  // b9 alone is a colour of G7
  CHECK(substitutes_in("G7@0", "Db5 Ab4 D5").empty());    // two notes
}

TEST_CASE("only over a dominant that does not name these tones itself, and only while it sounds") {
  CHECK(substitutes_in("G7(b9)@0", "Db5 F5 Ab5").empty());
  CHECK(substitutes_in("G7alt@0", "Db5 F5 Ab5").empty());
  CHECK(substitutes_in("Gmaj7@0", "Db5 F5 Ab5").empty());
  CHECK(substitutes_in("G7@0 C7@1", "Db5 F5 Ab5 C5").empty());
}
