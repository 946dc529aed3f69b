#include "analyzer/patterns/riffs.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <string>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using insideline::Riff;
using insideline::RiffPlace;
using insideline::tests::analysed;

namespace {

std::vector<Riff> riffs_in(const std::string& chords, const std::string& melody) {
  return analysed(chords, melody).analysis.patterns.riffs;
}

/// "4 notes: 0-3, 4-7 moved 5 fitted;" and so on, with everything that a listener would call the riff.
std::string told(const std::vector<Riff>& riffs) {
  std::string text;
  for (const Riff& riff : riffs) {
    text += std::to_string(riff.notes) + " notes:";
    for (const RiffPlace& place : riff.places)
      text += ' ' + std::to_string(place.first) + '-' + std::to_string(place.last) + " moved " +
              std::to_string(place.moved) + (place.same_beat ? "" : " shifted") + (place.fitted ? " fitted" : "") + ',';
  }
  return text;
}

const std::string figure = "C5:1/2 Bb4:1/2 G4:1 C5:1 r:1 ";
const std::string up_a_fourth = "F5:1/2 Eb5:1/2 C5:1 F5:1 r:1 ";
const std::string with_a_third = "C5:1/2 B4:1/2 G4:1 C5:1 r:1 ";
const std::string a_beat_later = "r:1 C5:1/2 Bb4:1/2 G4:1 C5:1 ";
const std::string other = "D5:1 A4:1/2 F4:1/2 E4:1 r:1 ";
const std::string rests = "r:4 ";

}  // namespace

TEST_CASE("a figure that comes three times is a riff, and what changes in it is told") {
  CHECK(told(riffs_in("C7@0", figure + figure + figure)) == "4 notes: 0-3 moved 0, 4-7 moved 0, 8-11 moved 0,");
  CHECK(told(riffs_in("C7@0 F7@4 C7@8", figure + up_a_fourth + figure)) ==
        "4 notes: 0-3 moved 0, 4-7 moved 5, 8-11 moved 0,");
  CHECK(told(riffs_in("C7@0 Cmaj7@4 C7@8", figure + with_a_third + figure)) ==
        "4 notes: 0-3 moved 0, 4-7 moved 0 fitted, 8-11 moved 0,");
  CHECK(told(riffs_in("C7@0", figure + other + a_beat_later + other + figure)) ==
        "4 notes: 0-3 moved 0, 8-11 moved 0 shifted, 16-19 moved 0,");
}

TEST_CASE("what comes twice, too far apart, in another rhythm, evenly in a few notes, or as a scale is no riff") {
  CHECK(riffs_in("C7@0", figure + figure).empty());
  CHECK(riffs_in("C7@0", figure + rests + rests + rests + rests + figure + rests + rests + rests + rests + figure)
            .empty());
  CHECK(riffs_in("C7@0", figure + "C5:1 Bb4:1/2 G4:1/2 C5:1 r:1 " + figure).empty());
  CHECK(riffs_in("C7@0", "C5:1 Bb4:1 G4:1 E4:1 A4:1 F4:1 C5:1 Bb4:1 G4:1 E4:1 D4:1 B4:1 C5:1 Bb4:1 G4:1 E4:1").empty());
  CHECK(riffs_in("C7@0", "C4:1 D4:1 E4:1 r:1 C4:1 D4:1 E4:1 r:1 C4:1 D4:1 E4:1 r:1 C4:1 D4:1 E4:1").empty());
}

TEST_CASE("a few even notes are a riff where they stand between two breaths") {
  const std::string even = "C5:1/2 Bb4:1/2 G4:1/2 C5:3/2 r:1 ";
  CHECK(told(riffs_in("C7@0", even + even + even)) == "4 notes: 0-3 moved 0, 4-7 moved 0, 8-11 moved 0,");
}

TEST_CASE("a riff without a rest between is cut where it begins again") {
  const std::string turn = "C5:1/2 Eb5:1/2 C5:1/2 G4:1/2 Bb4:3/2 G4:1/2 ";
  const auto riffs = riffs_in("C7@0", turn + turn + turn + turn);
  REQUIRE(riffs.size() == 1);
  CHECK(riffs[0].notes == 6);
  CHECK(riffs[0].places.size() >= 3);
}

TEST_CASE("a note that ends a riff and begins it again belongs to what begins") {
  const std::string turn = "C5:1/2 Bb4:1/2 G4:1 F4:2 ";
  CHECK(told(riffs_in("C7@0", turn + turn + turn + "C5:1/2 r:4")) ==
        "4 notes: 0-3 moved 0, 4-7 moved 0, 8-11 moved 0,");
}

TEST_CASE("transposing a line, or moving it by bars, leaves its patterns") {
  CHECK(rc::check([] {
    std::string melody;
    for (const int bar : *rc::gen::container<std::vector<int>>(8, rc::gen::inRange(0, 5)))
      melody += std::vector<std::string>{figure, up_a_fourth, with_a_third, a_beat_later,
                                         other}[static_cast<std::size_t>(bar)];
    const auto line = analysed("C7@0", melody);
    const std::string before = told(line.analysis.patterns.riffs);
    const auto by = insideline::usual_interval(*rc::gen::inRange(-11, 12));
    const auto moved = insideline::analyze(insideline::tests::transposed(line.solo, by),
                                           insideline::tests::transposed(line.analysis.harmony, by));
    RC_ASSERT(told(moved.patterns.riffs) == before);
    RC_ASSERT(moved.patterns.blue_notes.size() == line.analysis.patterns.blue_notes.size());
    RC_ASSERT(moved.patterns.pentatonic_runs.size() == line.analysis.patterns.pentatonic_runs.size());
    RC_ASSERT(told(riffs_in("N.C.@0 C7@8", "r:4 r:4 " + melody)) == before);
  }));
}

TEST_CASE("no note is in two riffs, and every place has the notes of its figure") {
  CHECK(rc::check([] {
    const auto random = insideline::tests::random_line(*rc::gen::arbitrary<unsigned>(), 24);
    const auto line = analysed(random.solo, random.harmony);
    std::vector<bool> taken(line.solo.notes.size(), false);
    for (const Riff& riff : line.analysis.patterns.riffs) {
      RC_ASSERT(riff.places.size() >= 3U);
      for (const RiffPlace& place : riff.places) {
        RC_ASSERT(place.last - place.first + 1 == static_cast<std::size_t>(riff.notes));
        for (std::size_t note = place.first; note <= place.last; ++note) {
          RC_ASSERT_FALSE(taken[note]);
          taken[note] = true;
        }
      }
    }
  }));
}
