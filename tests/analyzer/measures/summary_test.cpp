#include "analyzer/measures/summary.hpp"

#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::ConnectionKind;
using insideline::Share;
using insideline::Summary;
using insideline::tests::analysed;

TEST_CASE("the summary counts what the parts found") {
  const Summary summary =
      analysed("Dm7@0 G7@4 Cmaj7@8", "D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 G4:1/2 F4:1 F4:1 D4:1 B3:1 D4:1 C4:2 r:2")
          .analysis.summary;
  CHECK(summary.notes == 12);
  CHECK(summary.chord_tone_share_strict == Share{11, 12});
  CHECK(summary.arpeggios == 2);
  CHECK(summary.arpeggios_mixed <= summary.arpeggios);
  CHECK(summary.arpeggios_two_way <= summary.arpeggios_mixed);
  CHECK(summary.arpeggios_ascending + summary.arpeggios_descending + summary.arpeggios_mixed >= summary.arpeggios);
  CHECK(summary.straight_descents <= summary.arpeggios_descending);
  CHECK(summary.connections == 2);
  CHECK(summary.connections_by_kind.at(ConnectionKind::common_tone) == 1);
  CHECK(summary.connections_by_kind.at(ConnectionKind::whole_step) == 1);
  CHECK(summary.connections_by_kind.size() == 6);
  CHECK(summary.guide_tone_resolutions == Share{1, 2});
  CHECK(summary.guide_tones_kept == 1);               // F, third of Dm7 and seventh of G7
  CHECK(summary.nearest_taken_share == Share{2, 2});  // F again, and C, as near to D as E is
  CHECK(summary.thirds_given == Share{2, 3});
  CHECK(summary.sevenths_given == Share{2, 3});
  CHECK(summary.chord_tone_share_by_duration_strict.value() == Approx(9.5 / 10));
}

TEST_CASE("notes under N.C. and grace notes are counted apart") {
  const Summary summary = analysed("C@0 N.C.@4", "B3:0 C4:4 D4:4").analysis.summary;
  CHECK(summary.notes == 2);
  CHECK(summary.grace_notes == 1);
  CHECK(summary.no_chord == 1);
  CHECK(summary.chord_tone_share == Share{1, 1});
  CHECK(summary.arpeggio_share == Share{0, 1});
}

TEST_CASE("shares of nothing are absent") {
  const Summary summary = analysed("N.C.@0", "C4:4").analysis.summary;
  CHECK_FALSE(ratio(summary.chord_tone_share));
  CHECK_FALSE(summary.chord_tone_share_by_duration);
  CHECK_FALSE(summary.arpeggio_share_by_duration);
  CHECK_FALSE(ratio(summary.nearest_taken_share));
}

TEST_CASE("a short solo says so, a long one does not") {
  const auto warnings = analysed("C@0 F@4", "C4:4 A4:4").analysis.warnings;
  REQUIRE(warnings.size() == 2);
  CHECK(warnings[0] == "the solo has only 2 notes: below 30 the shares say little about the player");
  CHECK(warnings[1] ==
        "the chords change only 1 time: below 8 changes the connections and the chance level say little");
  const auto random = insideline::tests::random_line(2, 24);
  CHECK(insideline::tests::analysed(random.solo, random.harmony).analysis.warnings.empty());
}
