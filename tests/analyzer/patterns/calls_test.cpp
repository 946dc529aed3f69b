#include "analyzer/patterns/calls.hpp"

#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::find_calls_and_answers;
using insideline::tests::analysed;

namespace {

std::string calls_in(const std::string& melody) {
  const auto line = analysed("Eb7@0", melody);
  std::string text;
  for (const auto& pair : find_calls_and_answers(line.heard, line.solo, line.analysis.patterns.riffs))
    text += std::to_string(pair.first) + "-" + std::to_string(pair.last) + ">" + std::to_string(pair.answer) + " ";
  return text;
}

constexpr auto call = "r:1 Bb4:1/2 Bb4:1/2 Gb4:1/2 G4:1/2 Eb4:1/2 r:1/2 | ";

}  // namespace

TEST_CASE("a phrase in the rhythm of the one before it, at the same place of the bar, is its answer") {
  const std::string uneven = "r:1 Bb4:1/2 Bb4:1 Gb4:1/2 Eb4:1/2 r:1/2 | ";
  CHECK(calls_in(uneven + "r:1 Ab4:1/2 Ab4:1 F4:1/2 C4:1/2 r:1/2") == "0-3>4 ");
  CHECK(calls_in(uneven + "r:1 Ab4:1/2 Ab4:1 F4:1/2 C4:1/2 Bb3:1/2") == "0-3>4 ");  // and goes on
  CHECK(calls_in(uneven + "r:1 Ab4:1/2 Ab4:1 F4:1/2 C4:1/4 Bb3:1/4 C4:1/4 Bb3:1/4") == "0-3>4 ");
  CHECK(calls_in("r:1 Bb4:1/2 Bb4:1 Gb4:1/2 Eb4:1/4 C4:1/4 r:1/2 | r:1 Ab4:1/2 Ab4:1 F4:1/2 C4:1/2 Bb3:1/2") ==
        "0-4>5 ");  // but for the last note
}

TEST_CASE("even notes, another place of the bar, another rhythm or the same notes again are no answer") {
  CHECK(calls_in(std::string(call) + "r:1 Ab4:1/2 Ab4:1/2 Gb4:1/2 Eb4:1/2 C4:1/2 r:1/2").empty());
  const std::string uneven = "r:1 Bb4:1/2 Bb4:1 Gb4:1/2 Eb4:1/2 r:1/2 | ";
  CHECK(calls_in(uneven + "r:3/2 Ab4:1/2 Ab4:1 F4:1/2 C4:1/2").empty());
  CHECK(calls_in(uneven + "r:1 Ab4:1 Ab4:1/2 F4:1/2 C4:1/2 r:1/2").empty());
  CHECK(calls_in(uneven + uneven + "r:4").empty());
}

TEST_CASE("what comes a third time is a riff and no call") {
  const std::string bar = "r:1 Bb4:1/2 Bb4:1 Gb4:1/2 Eb4:1/2 r:1/2 | ";
  CHECK(calls_in(bar + "r:1 Ab4:1/2 Ab4:1 F4:1/2 Db4:1/2 r:1/2 | " + bar).empty());
}
