#include "analyzer/outside_events.hpp"

#include "tests/support/analysed.hpp"

#include <string>

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

TEST_CASE("of two chords that a side-slip may play the half step goes first, and colours are no side-slip") {
  const auto slip = [](const std::string& melody) {
    const auto events =
        analysed("Dm7@0", "D5:1/2 C5:1/2 A4:1/2 F4:1/2 " + melody + " A4:1/2 C5:1/2 F4:1").analysis.outside_events;
    return events.empty() ? std::string("none") : events[0].plays + " " + std::to_string(events[0].semitones);
  };
  CHECK(slip("F#4:1/2 A4:1/2 C#5:1/2 E5:1/2") == "none");       // tones and a ninth of the chord stand between
  CHECK(slip("Db5:1/2 Ab4:1/2 Fb4:1/2 Cb5:1/2") == "C#m7 -1");  // the half step goes first
}

TEST_CASE("one note struck again and again plays no other chord") {
  CHECK(analysed("Dm7@0", "D5:1 Eb5:1/2 Eb5:1/2 Eb5:1/2 Db5:1/2 D5:1").analysis.outside_events.empty());
}
