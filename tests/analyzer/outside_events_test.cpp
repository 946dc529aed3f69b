#include "analyzer/outside_events.hpp"

#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

using insideline::tests::analysed;

TEST_CASE("a side-slip is one event that names the chord it plays") {
  const auto events =
      analysed("Dm7@0",
               "D5:1/2 C5:1/2 A4:1/2 F4:1/2 Eb4:1/2 Gb4:1/2 Bb4:1/2 Db5:1/2 A4:1/2 C5:1/2 B4:1/2 A4:1/2 "
               "F4:1")
          .analysis.outside_events;
  REQUIRE(events.size() == 1);
  CHECK(events[0].first == 4);
  CHECK(events[0].last == 7);
  CHECK(events[0].plays == "Ebm7");
  CHECK(events[0].semitones == 1);
}

TEST_CASE("two foreign notes, or colours that belong to the chord, are no event") {
  CHECK(analysed("Dm7@0", "D5:1 Eb5:1/2 Db5:1/2 D5:2").analysis.outside_events.empty());
  CHECK(analysed("Cmaj7@0", "E4:1 G4:1 B4:1 D5:1").analysis.outside_events.empty());
}
