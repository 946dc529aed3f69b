#include "analyzer/drills/octave_moves.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using insideline::Drill;
using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::fit_by_octaves;
using insideline::octave_joints;
using insideline::tests::chart;
using insideline::tests::drilled;

namespace {

const std::vector<bool> anywhere{false, true, true, true, true, true};

}  // namespace

TEST_CASE("a line that lies in the range stays where it is and costs nothing") {
  const std::vector<int> line{60, 64, 67, 72};
  const auto fit = fit_by_octaves(line, anywhere, {60, 72});
  REQUIRE(fit);
  CHECK(fit->cost == 0);
  CHECK(std::ranges::count(fit->octaves, 0) == 4);
}

TEST_CASE("the notes beyond the range go an octave down, with those between them and the nearest joint") {
  const std::vector<int> line{60, 64, 67, 71, 74, 71};
  const auto fit = fit_by_octaves(line, anywhere, {60, 72});
  REQUIRE(fit);
  CHECK(fit->octaves == std::vector<int>{0, 0, 0, 0, -1, 0});
  const auto whole = fit_by_octaves(line, {false, false, false, false, true, false}, {59, 72});
  REQUIRE(whole);
  CHECK(whole->octaves == std::vector<int>{0, 0, 0, 0, -1, -1});
}

TEST_CASE("without a joint, or where more than a third would move, it is no longer the same line") {
  const std::vector<int> line{60, 64, 67, 71, 74, 71};
  CHECK_FALSE(fit_by_octaves(line, std::vector<bool>(6), {60, 72}));
  const std::vector<int> half_outside{60, 64, 67, 73, 74, 76};
  CHECK_FALSE(fit_by_octaves(half_outside, anywhere, {60, 72}));
}

TEST_CASE("a line changes its octave over one chord and never on the way into the next") {
  const Drill drill = drilled(chart("Dm7 | G7 | Cmaj7 | %"), DrillSettings{});
  const std::vector<bool> joints = octave_joints(drill, DrillSettings{});
  for (std::size_t note = 1; note < joints.size(); ++note) {
    const bool is_change = note == 8 || note == 16;
    CHECK(joints[note] == !is_change);
  }
}

TEST_CASE("a cell or an arpeggio is never torn, and guide tones stay as they are led") {
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  const Drill drill = drilled(chart("Dm7 | G7 | Cmaj7 | %"), settings);
  const std::vector<bool> joints = octave_joints(drill, settings);
  for (std::size_t note = 1; note < joints.size(); ++note) CHECK(joints[note] == (note % 4 == 0));
  settings.kind = DrillKind::guide_tones;
  const std::vector<bool> none = octave_joints(drilled(chart("Dm7 | G7"), settings), settings);
  CHECK(std::ranges::count(none, true) == 0);
}

TEST_CASE("an enclosure keeps its two tones together, with the third that they enclose") {
  DrillSettings settings;
  settings.kind = DrillKind::enclosures;
  const std::vector<bool> joints = octave_joints(drilled(chart("Dm7 | G7"), settings), settings);
  REQUIRE(joints.size() == 16);
  CHECK(joints[6]);        // before the two
  CHECK_FALSE(joints[7]);  // between them
  CHECK_FALSE(joints[8]);  // before the third
}
