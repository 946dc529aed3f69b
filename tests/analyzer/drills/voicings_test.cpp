#include "analyzer/drills/voicings.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/drilled.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <vector>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using insideline::Chord;
using insideline::motion_of;
using insideline::smooth_voicings;
using insideline::SoundingChord;
using insideline::upper_voices;
using insideline::voiced_classes;
using insideline::Voicing;

namespace {

std::vector<SoundingChord> in_a_row(const std::vector<std::string>& symbols) {
  std::vector<SoundingChord> chords;
  for (const std::string& symbol : symbols) {
    SoundingChord sounding;
    sounding.chord = insideline::parse_chord_symbol(symbol)->value();
    sounding.onset = insideline::Beats(static_cast<std::int64_t>(4 * chords.size()));
    sounding.duration = insideline::Beats(4);
    chords.push_back(sounding);
  }
  return chords;
}

/// The least sum of moves by any pairing, each move by the shorter way round.
int least_motion(const Chord& from, const Chord& to) {
  const auto first = voiced_classes(from);
  auto second = voiced_classes(to);
  std::ranges::sort(second);
  int least = 1000;
  do {
    int sum = 0;
    for (std::size_t i = 0; i < first.size(); ++i) {
      const int up = (second.at(i) - first.at(i) + 12) % 12;
      sum += std::min(up, 12 - up);
    }
    least = std::min(least, sum);
  } while (std::next_permutation(second.begin(), second.end()));
  return least;
}

}  // namespace

TEST_CASE("two chords are voiced with the least motion that there is between them") {
  // Sums of moves as worked out by Tymoczko's measure: every tone of the one is paired with exactly one of the other.
  struct Row {
    std::string from;
    std::string to;
    int semitones;
  };
  const std::vector<Row> rows{
      {"Dm7", "G7", 3},    {"G7", "Cmaj7", 3},  {"Cmaj7", "Fmaj7", 4},  {"Cmaj7", "A7", 3},     {"A7", "Dm7", 5},
      {"Cmaj7", "Am7", 2}, {"Am7", "Dm7", 4},   {"Em7", "A7", 3},       {"C7", "F7", 4},        {"F7", "C7", 4},
      {"G7", "F7", 4},     {"Dm7b5", "G7", 2},  {"G7", "CmMaj7", 4},    {"G7", "Cm7", 5},       {"Db7", "Cmaj7", 3},
      {"Dm7", "Db7", 3},   {"Cmaj7", "Cm7", 2}, {"Cm7", "F7", 3},       {"Fm7", "Bb7", 3},      {"Bb7", "Cmaj7", 5},
      {"F7", "F#dim7", 1}, {"F#dim7", "C7", 3}, {"Bm7b5", "E7", 2},     {"E7", "Am7", 5},       {"G7", "C6", 5},
      {"G7sus4", "G7", 1}, {"C7", "Cdim7", 3},  {"Cmaj7", "Ebmaj7", 4}, {"Cmaj7", "Abmaj7", 4}, {"B7", "Gmaj7", 3},
      {"D7", "Gmaj7", 3},  {"Gmaj7", "Bb7", 3}, {"Bb7", "Ebmaj7", 3},   {"C7", "F#7", 2},       {"Cdim7", "Ebdim7", 0},
      {"G7", "Cm6", 6},
  };
  for (const Row& row : rows) {
    INFO(row.from << " to " << row.to);
    const auto chords = in_a_row({row.from, row.to});
    const auto voicings = smooth_voicings(chords);
    CHECK(motion_of(voicings[0], voicings[1]) == row.semitones);
    CHECK(least_motion(chords[0].chord, chords[1].chord) == row.semitones);
  }
}

TEST_CASE("in any changes a voicing keeps its register, has third and seventh, and its bass below") {
  CHECK(rc::check([] {
    const auto seed = *rc::gen::inRange(1U, 1000000U);
    const auto changes = insideline::tests::random_chart(seed, 12);
    std::vector<SoundingChord> chords;
    for (const auto& span : changes.spans) {
      SoundingChord sounding;
      sounding.chord = span.chord.value();
      chords.push_back(sounding);
    }
    chords.push_back(in_a_row({*rc::gen::element(std::string("Eb5"), std::string("A"), std::string("Bm"))}).front());
    const auto voicings = smooth_voicings(chords);
    RC_ASSERT(voicings.size() == chords.size());
    for (std::size_t i = 0; i < chords.size(); ++i) {
      const Voicing& voicing = voicings[i];
      const Chord& chord = chords[i].chord;
      RC_ASSERT(voicing.bass % 12 == pitch_class(chord.bass.value_or(chord.root)));
      RC_ASSERT(voicing.bass >= 36 && voicing.bass < 48);
      RC_ASSERT(voicing.voices.front() >= 52 && voicing.voices.back() <= 76);
      RC_ASSERT(std::ranges::is_sorted(voicing.voices));
      for (const auto& guide : guide_tones(chord))
        RC_ASSERT(std::ranges::any_of(voicing.voices, [&](int midi) {
          return midi % 12 == (pitch_class(chord.root) + pitch_class_above_root(guide)) % 12;
        }));
    }
  }));
}

TEST_CASE("a voice stays or moves by step in two-five-one, and a slash chord has its bass below") {
  const auto voicings = smooth_voicings(in_a_row({"Dm7", "G7", "Cmaj7", "C/E"}));
  for (std::size_t i = 1; i < 3; ++i)
    for (std::size_t voice = 0; voice < upper_voices; ++voice)
      CHECK(std::abs(voicings[i].voices.at(voice) - voicings[i - 1].voices.at(voice)) <= 2);
  CHECK(voicings.back().bass == 40);
}

TEST_CASE("a ninth chord has its ninth, a triad its root twice, and what the symbol adds comes before the fifth") {
  CHECK(voiced_classes(insideline::parse_chord_symbol("C9")->value()) == std::array{4, 10, 2, 7});
  CHECK(voiced_classes(insideline::parse_chord_symbol("C")->value()) == std::array{4, 7, 0, 0});
  CHECK(voiced_classes(insideline::parse_chord_symbol("C13")->value())[2] == 9);
}
