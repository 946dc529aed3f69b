#include "analyzer/measures/beat_places.hpp"

#include "tests/support/analysed.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::measure_beat_places;
using insideline::PlaceDensity;
using insideline::tests::analysed;
using insideline::tests::random_line;

namespace {

/// "1:2/2 1+:0/1": beat, chord tones of notes; + after the beat.
std::string places(std::string_view chords, std::string_view melody, const insideline::Meter& meter = {}) {
  const auto line = analysed(chords, melody, meter);
  std::string text;
  for (const PlaceDensity& place : measure_beat_places(line.solo, line.analysis))
    text += (text.empty() ? "" : " ") + std::to_string(place.beat) + (place.after_beat ? "+" : "") + ":" +
            std::to_string(place.density.chord_tones) + "/" + std::to_string(place.density.notes);
  return text;
}

}  // namespace

TEST_CASE("notes are sorted by their place in the bar") {
  CHECK(places("Cmaj7@0", "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1 E4:1 | C4:2 G4:2") ==
        "1:2/2 1+:0/1 2:1/1 2+:0/1 3:2/2 4:1/1");
}

TEST_CASE("in 6/8 the counted beat is an eighth") {
  CHECK(places("C@0", "C4:1/2 E4:1/2 G4:1/2 C5:1/4 G4:1/4 E4:1", {6, 8}) == "1:1/1 2:1/1 3:1/1 4:1/1 4+:1/1 5:1/1");
}

TEST_CASE("grace notes and notes without a chord have no place") {
  CHECK(places("C@0 N.C.@1 C@3", "E4:1 D4:1 A4:1 F#4:0 G4:1") == "1:1/1 4:1/1");
}

TEST_CASE("the places of a line add up to its density, and moving it to another key changes none") {
  const auto random = random_line(7, 12);
  const auto line = analysed(random.solo, random.harmony);
  const auto moved = analysed(insideline::tests::transposed(random.solo, {1, 2}),
                              insideline::tests::transposed(random.harmony, {1, 2}));
  const auto here = measure_beat_places(line.solo, line.analysis);
  const auto there = measure_beat_places(moved.solo, moved.analysis);
  REQUIRE(here.size() == there.size());
  int notes = 0;
  int chord_tones = 0;
  for (std::size_t i = 0; i < here.size(); ++i) {
    notes += here[i].density.notes;
    chord_tones += here[i].density.chord_tones;
    CHECK(here[i].density.notes == there[i].density.notes);
    CHECK(here[i].density.chord_tones == there[i].density.chord_tones);
  }
  CHECK(notes == line.analysis.densities.all.notes);
  CHECK(chord_tones == line.analysis.densities.all.chord_tones);
}
