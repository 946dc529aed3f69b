#include "analyzer/drills/aim_remarks.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <set>
#include <string>
#include <vector>

using insideline::aim_remarks;
using insideline::Drill;
using insideline::DrillKind;
using insideline::DrillSettings;
using insideline::far_guide_tones;
using insideline::tests::chart;
using insideline::tests::drilled;

namespace {

std::vector<std::string> remarks_over(const std::string& bars, DrillKind kind, int voices = 1) {
  DrillSettings settings;
  settings.kind = kind;
  settings.voices = voices;
  return drilled(chart(bars), settings).remarks;
}

}  // namespace

TEST_CASE("a guide-tone line says which chords have no third or no seventh, and what is played there") {
  CHECK(remarks_over("C6 | G7sus4 | C | C5", DrillKind::guide_tones) ==
        std::vector<std::string>{"C (bar 3) has no seventh; its third is played.",
                                 "C5 (bar 4) has neither third nor seventh; its fifth or root is played.",
                                 "C6 (bar 1) has no seventh; the sixth stands for it.",
                                 "G7sus4 (bar 2) has no third; the fourth stands for it."});
  CHECK(remarks_over("C | Dm7", DrillKind::guide_tones, 2) ==
        std::vector<std::string>{"C (bar 1) has no seventh; its root takes that voice."});
  CHECK(remarks_over("Dm7 | G7 | Cmaj7", DrillKind::guide_tones).empty());
}

TEST_CASE("a line that encloses thirds says where there is none") {
  CHECK(remarks_over("Dm7 | C5 | G7sus4 | N.C.", DrillKind::enclosures) ==
        std::vector<std::string>{"C5 (bar 2) has no third to enclose; the line moves to its nearest tone.",
                                 "G7sus4 (bar 3) has no third; the fourth that stands for it is enclosed.",
                                 "N.C. (bar 4): nothing is played there, and nothing leads into it."});
}

TEST_CASE("a power chord has no arpeggio to come down") {
  CHECK(remarks_over("Dm7 | C5 | Cmaj7", DrillKind::descents) ==
        std::vector<std::string>{
            "C5 (bar 2) does not have an arpeggio down of three tones here; what it has is played."});
}

TEST_CASE("where the range ends, a guide-tone line moves further than it need, and says in which bar") {
  DrillSettings settings;
  settings.kind = DrillKind::guide_tones;
  settings.range = {60, 72};
  const Drill drill = drilled(chart("C7 | F7 | Bb7 | Eb7 | Ab7 | Db7 | Gb7 | B7 | E7 | A7 | D7 | G7 | C7 | F7 | Bb7 | "
                                    "Eb7 | Ab7 | Db7 | Gb7 | B7 | E7 | A7 | D7 | G7"),
                              settings);
  // A half step down at every change, and twelve half steps in the range: once in twelve bars it starts anew.
  const std::set<int> far = far_guide_tones(drill, 1);
  CHECK(far.size() == 2);
  REQUIRE(drill.remarks.size() == 1);
  CHECK(drill.remarks.front() ==
        "The range ends in " + insideline::bars_listed(far) + "; the line moves further there than it need.");
}
