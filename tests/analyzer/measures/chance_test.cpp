// A turn that gives the same changes again says nothing about the line: counted, it would
// hide a perfect match. See Harris, A Shift Test for Independence in Generic Time Series (2020).
#include "analyzer/measures/chance.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <array>
#include <cmath>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Chance;
using insideline::Share;
using insideline::tests::analysed;

namespace {

const std::vector<std::string> eight_chords = {"Cmaj7", "F7", "Bbm7", "Ebmaj7", "Abm7", "Db7", "F#m7", "Bmaj7"};

std::string one_a_bar(const std::vector<std::string>& chords) {
  std::string text;
  for (std::size_t bar = 0; bar < chords.size(); ++bar) text += chords[bar] + '@' + std::to_string(4 * bar) + ' ';
  return text;
}

/// Quarters of random pitches over `bars` bars.
std::string random_quarters(std::mt19937& random, std::size_t notes) {
  constexpr std::array<const char*, 12> pitches = {"C4",  "Db4", "D4",  "Eb4", "E4",  "F4",
                                                   "F#4", "G4",  "Ab4", "A4",  "Bb4", "B4"};
  std::string melody;
  for (std::size_t i = 0; i < notes; ++i) melody += std::string(pitches.at(random() % pitches.size())) + ":1/4 ";
  return melody;
}

/// The definition, note by note: over which chord of the turned ring does it stand?
Share plain_share(const insideline::HeardLine& line, const insideline::Solo& solo, const insideline::ChangesRing& ring,
                  std::size_t turn) {
  Share share;
  for (const insideline::HeardNote& note : line.notes) {
    const auto bar = insideline::bar_under(ring, note.bar, turn);
    if (!bar) continue;
    const insideline::Beats offset = solo.notes[note.note].onset - solo.bars[note.bar].onset;
    std::optional<insideline::PitchClassSet> tones;
    for (const insideline::BarSpan& span : ring.bars[*bar])
      if (span.offset <= offset) tones = span.tones;
    if (!tones) continue;
    ++share.of;
    share.count += insideline::contains(*tones, note.pitch_class) ? 1 : 0;
  }
  return share;
}

}  // namespace

TEST_CASE("a line that spells every chord stands at the smallest value the shifts allow") {
  const std::string melody =
      "C4:1 E4:1 G4:1 B4:1 F4:1 A4:1 C5:1 Eb5:1 Bb3:1 Db4:1 F4:1 Ab4:1 Eb4:1 G4:1 Bb4:1 D5:1 "
      "Ab3:1 Cb4:1 Eb4:1 Gb4:1 Db4:1 F4:1 Ab4:1 Cb5:1 F#4:1 A4:1 C#5:1 E5:1 B3:1 D#4:1 F#4:1 A#4:1";
  const Chance chance = analysed(one_a_bar(eight_chords), melody).analysis.summary.chance;
  CHECK(chance.actual == Approx(1.0));
  CHECK(chance.shifts == 7);
  CHECK(chance.values.size() == 7);
  CHECK(chance.p_value.value() == Approx(1.0 / 8));
  CHECK(chance.mean.value() < 0.6);
}

TEST_CASE("turns that give the same changes again are left out") {
  // Every second bar is the same: of seven turns one is different, and it is tried once.
  const auto two_bar_vamp = one_a_bar({"C7", "F#m", "C7", "F#m", "C7", "F#m", "C7", "F#m"});
  const std::string line = "E4:4 A4:4 E4:4 A4:4 E4:4 A4:4 E4:4 A4:4";
  const Chance chance = analysed(two_bar_vamp, line).analysis.summary.chance;
  CHECK(chance.actual == Approx(1.0));
  CHECK(chance.shifts == 1);
  CHECK(chance.mean.value() == Approx(0.0));
  CHECK(chance.p_value.value() == Approx(0.5));
}

TEST_CASE("over one chord there is no other alignment, and no level by chance") {
  const Chance chance = analysed("C@0", "C4:4 E4:4 G4:4 D4:4").analysis.summary.chance;
  CHECK(chance.actual == Approx(0.75));
  CHECK(chance.shifts == 0);
  CHECK_FALSE(chance.mean);
  CHECK_FALSE(chance.p_value);
}

TEST_CASE("each turn is counted by hand") {
  // The line C E | D G | B A over C F G: C, E and B fit. Turned by one bar, over F G C: C, D
  // and G. By two, over G C F: G and A. One of the two turns is as good as the real one.
  const Chance chance = analysed("C@0 F@4 G@8", "C4:2 E4:2 D4:2 G4:2 B4:2 A4:2").analysis.summary.chance;
  CHECK(chance.actual == Approx(3.0 / 6));
  REQUIRE(chance.values.size() == 2);
  CHECK(chance.values[0] == Approx(3.0 / 6));
  CHECK(chance.values[1] == Approx(2.0 / 6));
  CHECK(chance.mean.value() == Approx(2.5 / 6));
  CHECK(chance.p_value.value() == Approx(2.0 / 3));
}

TEST_CASE("transposing the line is counted apart, and moves that change no chord are left out") {
  const auto summary = analysed("C@0", "C4:2 E4:2").analysis.summary;
  CHECK(summary.chance_by_transposing.shifts == 11);
  // No other major third lies inside a major triad.
  CHECK(summary.chance_by_transposing.p_value.value() == Approx(1.0 / 12));
  CHECK(analysed("Cdim7@0", "C4:2 Eb4:2").analysis.summary.chance_by_transposing.shifts == 8);
}

TEST_CASE("a shift that does as well counts against the line") {
  const std::vector<Share> shifted = {{.count = 5, .of = 10}, {.count = 4, .of = 10}, {.count = 1, .of = 2}};
  const Chance chance = insideline::against_shifts({.count = 5, .of = 10}, shifted);
  CHECK(chance.p_value.value() == Approx(3.0 / 4));
  CHECK_FALSE(insideline::against_shifts({.count = 0, .of = 0}, shifted).p_value);
}

TEST_CASE("over lines that know nothing of the changes the p-values are spread evenly") {
  // 400 random lines of 16 bars over 16 different alignments, seed 11. Under no connection each
  // of the values 1/16 ... 16/16 is equally likely; shares that tie push it up a little.
  // The largest gap between the two distributions is below 0.068 in 95 % of such trials
  // (Kolmogorov); 0.1 leaves room for the ties.
  std::mt19937 random(11);
  std::vector<std::string> chords = eight_chords;
  chords.insert(chords.end(), {"Gm7", "C7", "Fmaj7", "Bm7b5", "E7", "Am7", "D7", "Gmaj7"});
  constexpr int lines = 400;
  constexpr std::size_t values = 16;
  std::array<int, values + 1> seen{};
  for (int i = 0; i < lines; ++i) {
    const auto solo = insideline::tests::solo_from(random_quarters(random, 16 * 16));
    const auto harmony = insideline::tests::harmony_from(one_a_bar(chords), solo);
    const std::vector<insideline::NoteLabel> unlabelled(solo.notes.size());
    const auto line = insideline::hear(solo, harmony, unlabelled, {});
    const auto ring = insideline::ring_of(solo, harmony, line);
    const Chance chance = insideline::chance_by_turning(line, solo, ring);
    REQUIRE(chance.shifts == static_cast<int>(values) - 1);
    ++seen.at(static_cast<std::size_t>(std::lround(chance.p_value.value() * values)));
  }
  CHECK(seen[0] == 0);
  double up_to = 0.0;
  for (std::size_t value = 1; value <= values; ++value) {
    up_to += static_cast<double>(seen.at(value)) / lines;
    INFO("p up to " << value << "/16");
    CHECK(std::abs(up_to - static_cast<double>(value) / values) < 0.1);
  }
}

TEST_CASE("over a long solo each turn is counted as one note after another would be") {
  // 4,800 sixteenths over 300 bars that never repeat, some without a chord and some with two: seed 3.
  std::mt19937 random(3);
  constexpr std::size_t bars = 300;
  std::string chords;
  for (std::size_t bar = 0; bar < bars; ++bar) {
    chords += (random() % 9 == 0 ? "N.C." : eight_chords.at(random() % 8)) + '@' + std::to_string(4 * bar) + ' ';
    if (random() % 3 == 0)
      chords += eight_chords.at(random() % 8) + '@' + std::to_string(4 * bar + 1 + random() % 3) + ' ';
  }
  const auto solo = insideline::tests::solo_from(random_quarters(random, 16 * bars));
  const auto harmony = insideline::tests::harmony_from(chords, solo);
  const auto line = insideline::hear(solo, harmony, std::vector<insideline::NoteLabel>(solo.notes.size()), {});
  const auto ring = insideline::ring_of(solo, harmony, line);
  REQUIRE(ring.period == bars);
  const Chance chance = insideline::chance_by_turning(line, solo, ring);
  REQUIRE(chance.values.size() == bars - 1);
  for (std::size_t turn = 0; turn < bars; ++turn) {
    const Share share = plain_share(line, solo, ring, turn);
    CAPTURE(turn, share.count, share.of);
    CHECK((turn == 0 ? chance.actual : chance.values[turn - 1]) == ratio(share));
  }
}
