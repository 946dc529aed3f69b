#include "analyzer/measures/heard_harmony.hpp"

#include "tests/support/analysed.hpp"

#include <cmath>
#include <string>

#include <catch2/catch.hpp>

using insideline::HeardHarmony;
using insideline::Share;
using insideline::tests::analysed;

namespace {

HeardHarmony heard_in(const std::string& chords, const std::string& melody) {
  return analysed(chords, melody).analysis.heard;
}

}  // namespace

TEST_CASE("every kind of chord in use stands on all twelve roots, equal sets of tones once") {
  const auto [chords, candidates] = GENERATE(table<std::string, int>({
      {"C@0", 12},
      {"C@0 F@4", 12},
      {"C@0 Am@4", 24},
      {"C6@0 Am7@4", 12},
      {"Cdim7@0", 3},
      {"Caug@0 G7@4", 16},
  }));
  CHECK(heard_in(chords, "C4:8").candidates == candidates);
}

TEST_CASE("the bits of one note are worked out by hand") {
  // One C under a C triad, 12 triads: a tone has 4/21 and any other pitch 1/21. Three major
  // triads hold the C, so its chord has 4 / (3 * 4 + 9 * 1) = 4/21 of the belief, 12 * 4/21
  // times a uniform guess.
  const HeardHarmony heard = heard_in("C@0", "C4:4");
  REQUIRE(heard.chords.size() == 1);
  CHECK(heard.chords[0].rank == 1);
  CHECK(heard.chords[0].bits == Approx(std::log2(12.0 * 4 / 21)));
  CHECK(heard.bits_per_chord == Approx(heard.chords[0].bits));
}

TEST_CASE("a spelled chord is heard, and a chord that the line contradicts is not") {
  const HeardHarmony spelled =
      heard_in("Dm7@0 G7@4 Cmaj7@8", "D4:1 F4:1 A4:1 C5:1 B4:1 G4:1 D4:1 F4:1 E4:1 G4:1 B4:1 C5:1");
  CHECK(spelled.first_rank == Share{3, 3});
  CHECK(spelled.bits_per_chord > 3.0);
  const HeardHarmony contradicted = heard_in("Cmaj7@0", "F#4:1 A#4:1 C#5:1 F#4:1");
  CHECK(contradicted.chords[0].rank > 1);
  CHECK(contradicted.chords[0].bits < 0.0);
}

TEST_CASE("chords without notes are left out, and without chords there is nothing to hear") {
  CHECK(heard_in("C@0 F@4", "C4:4 r:4").chords.size() == 1);
  const HeardHarmony nothing = heard_in("N.C.@0", "C4:4");
  CHECK(nothing.chords.empty());
  CHECK(nothing.bits_per_chord == Approx(0.0));
}
