#include "reports/printed/closing_summary.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::reports::closing_summary;
using insideline::tests::sample_report;

TEST_CASE("the figures at the end of a sheet are those of the analysis, in words") {
  CHECK(
      closing_summary(sample_report().analysis.summary) ==
      std::vector<std::string>{
          "8 of 12 notes (67 %) are heard as chord tones: 83 % on the beat, 50 % off it. The others are 2 tensions, "
          "1 non-chord tone and 1 note outside.",
          "4 of 12 notes (33 %) belong to 1 arpeggio, leg by leg 1 up.",
          "The chord changes 2 times. Connections: 1 by whole step. The line takes the nearest tone of the next chord, "
          "or a common one, at 1 of 1 connection (100 %). Third and seventh lead to each other at 1 of 1 (100 %).",
          "Is that these changes, or luck? Each note against the chord of its moment, 58 % of the line fits; shifted "
          "by whole bars, the same changes would fit 38 % on average.",
      });
}

TEST_CASE("a third that stays as a seventh is not said to lead") {
  insideline::Summary summary = sample_report().analysis.summary;
  summary.guide_tone_resolutions = {3, 4};
  summary.guide_tones_kept = 2;
  const std::string connections = closing_summary(summary).at(2);
  CHECK(connections.ends_with(
      "Third and seventh lead to each other at 1 of 4 (25 %). At 2 of 4 (50 %) one note stays and is both."));
  summary.guide_tones_kept = 3;
  CHECK(closing_summary(summary).at(2).find("lead to each other") == std::string::npos);
}

TEST_CASE("without notes under chords nothing is claimed") { CHECK(closing_summary({}).empty()); }
