#include "analyzer/drills/aim_check.hpp"

#include "analyzer/analysis.hpp"
#include "analyzer/spelling.hpp"
#include "tests/support/drilled.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using insideline::AimCheck;
using insideline::analyze;
using insideline::Arpeggio;
using insideline::check_aim;
using insideline::Direction;
using insideline::Drill;
using insideline::drill_over;
using insideline::DrillKind;
using insideline::DrillRhythm;
using insideline::DrillSettings;
using insideline::Hearing;
using insideline::Leg;
using insideline::Share;
using insideline::tests::chart;
using insideline::tests::drilled;
using insideline::tests::names_of;

namespace {

DrillSettings aiming(DrillKind kind, int voices = 1) {
  DrillSettings settings;
  settings.kind = kind;
  settings.voices = voices;
  settings.range = {52, 83};
  return settings;
}

/// Charts of any chords, one or two a bar, some repeated, some without chord.
rc::Gen<std::string> any_chart() {
  static const std::vector<std::string> roots{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
  static const std::vector<std::string> kinds{"maj7", "7",  "m7", "m7b5", "dim7", "6",     "m6", "mMaj7", "7(b9)", "9",
                                              "m9",   "13", "",   "m",    "aug",  "7sus4", "5",  "7alt",  "dim"};
  const auto symbol = rc::gen::map(rc::gen::pair(rc::gen::elementOf(roots), rc::gen::elementOf(kinds)),
                                   [](const auto& parts) { return parts.first + parts.second; });
  const auto two = rc::gen::map(rc::gen::pair(symbol, symbol),
                                [](const auto& chords) { return chords.first + " " + chords.second; });
  const auto bar = rc::gen::weightedOneOf<std::string>(
      {{5, symbol}, {4, two}, {1, rc::gen::just(std::string("%"))}, {1, rc::gen::just(std::string("N.C."))}});
  return rc::gen::map(rc::gen::pair(symbol, rc::gen::container<std::vector<std::string>>(11, bar)),
                      [](const auto& bars) {
                        std::string text = bars.first;
                        for (const std::string& one : bars.second) text += " | " + one;
                        return text;
                      });
}

bool climbs(const Drill& drill) {
  insideline::Settings strictly;
  strictly.hearing = Hearing::strict;
  const auto analysis = analyze(drill.solo, drill.harmony, strictly);
  return std::ranges::any_of(analysis.arpeggios, [](const Arpeggio& arpeggio) {
    return std::ranges::any_of(arpeggio.legs, [](const Leg& leg) { return leg.direction == Direction::ascending; });
  });
}

}  // namespace

TEST_CASE("over any chart and in any rhythm, a line does at every change what its sheet says, as the analysis finds") {
  const auto [kind, voices] = GENERATE(table<DrillKind, int>({{DrillKind::nearest_tones, 1},
                                                              {DrillKind::common_tones, 1},
                                                              {DrillKind::guide_tones, 1},
                                                              {DrillKind::guide_tones, 2},
                                                              {DrillKind::enclosures, 1},
                                                              {DrillKind::descents, 1}}));
  const DrillSettings asked = aiming(kind, voices);
  CHECK(rc::check([&asked] {
    DrillSettings settings = asked;
    settings.rhythm = *rc::gen::element(DrillRhythm::quarters, DrillRhythm::eighths, DrillRhythm::triplets,
                                        DrillRhythm::off_beat, DrillRhythm::three_over_four);
    // The least motion leaves little choice and may go up and up. What is said where a range ends: aim_remarks_test.
    if (settings.kind == DrillKind::guide_tones) settings.range = {24, 108};
    const std::string text = *any_chart();
    const auto drill = drill_over(chart(text), settings);
    RC_ASSERT(drill.has_value());
    const auto aim = check_aim(*drill, settings);
    RC_ASSERT(aim.has_value());
    RC_LOG() << text << "\n" << names_of(*drill) << "\n" << aim->kept.count << " of " << aim->kept.of << "\n";
    // Straight down, the range may leave no way that is not climbed to first (seen once in two thousand charts).
    const int excused = settings.kind == DrillKind::descents ? 1 : 0;
    RC_ASSERT(aim->kept.count + excused >= aim->kept.of);
    RC_ASSERT(static_cast<int>(aim->missed.size()) <= excused);
  }));
}

TEST_CASE("every descent comes straight down: nothing climbs through a chord first") {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    const Drill drill = drilled(insideline::tests::random_chart(seed, 16), aiming(DrillKind::descents));
    INFO("seed " << seed << ": " << names_of(drill));
    CHECK_FALSE(climbs(drill));
  }
}

TEST_CASE("a sheet that does not do what it says is found out") {
  const auto spoiled = [](DrillKind kind, int voices, std::size_t note, int semitones) {
    const DrillSettings settings = aiming(kind, voices);
    Drill drill = drilled(chart("Dm7 | G7 | Cmaj7 | A7"), settings);
    const AimCheck whole = check_aim(drill, settings).value();
    CHECK(whole.kept.count == whole.kept.of);
    CHECK(whole.kept.of > 2);
    auto& pitch = drill.solo.notes.at(note).pitch;
    const int midi = midi_number(pitch) + semitones;
    pitch = spelled_pitch(midi, insideline::usual_name(midi % 12, {}));
    const AimCheck aim = check_aim(drill, settings).value();
    return aim.kept.of - aim.kept.count;
  };
  CHECK(spoiled(DrillKind::nearest_tones, 1, 8, 12) == 1);
  CHECK(spoiled(DrillKind::guide_tones, 1, 1, 1) >= 1);
  CHECK(spoiled(DrillKind::guide_tones, 2, 2, 1) >= 1);
  CHECK(spoiled(DrillKind::enclosures, 1, 7, 12) == 1);
  CHECK(spoiled(DrillKind::enclosures, 1, 8, 2) == 1);
  CHECK(spoiled(DrillKind::descents, 1, 3, 12) >= 1);
}

TEST_CASE("arpeggios and cells aim at nothing") {
  const DrillSettings settings = aiming(DrillKind::arpeggios);
  CHECK_FALSE(check_aim(drilled(chart("Dm7 | G7"), settings), settings));
}
