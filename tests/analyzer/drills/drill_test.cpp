#include "analyzer/drills/drill.hpp"

#include "analyzer/analysis.hpp"
#include "analyzer/connections.hpp"
#include "analyzer/drills/usual_scales.hpp"
#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <set>
#include <string>

using insideline::Analysis;
using insideline::analyze;
using insideline::Arpeggio;
using insideline::Chord;
using insideline::Connection;
using insideline::ConnectionKind;
using insideline::Direction;
using insideline::Drill;
using insideline::drill_over;
using insideline::DrillKind;
using insideline::DrillRhythm;
using insideline::DrillSettings;
using insideline::Hearing;
using insideline::Inversion;
using insideline::Note;
using insideline::Settings;
using insideline::Way;
using insideline::tests::chart;
using insideline::tests::drilled;
using insideline::tests::names_of;
using insideline::tests::random_chart;

namespace {

Analysis strictly(const Drill& drill) {
  Settings settings;
  settings.hearing = Hearing::strict;
  return analyze(drill.solo, drill.harmony, settings);
}

void check_range(const Drill& drill, const DrillSettings& settings) {
  for (const Note& note : drill.solo.notes) {
    CHECK(midi_number(note.pitch) >= settings.range.lowest);
    CHECK(midi_number(note.pitch) <= settings.range.highest);
  }
}

}  // namespace

TEST_CASE("the line takes the nearest tone at every change, in every rhythm, and never leaves the range") {
  const auto kind = GENERATE(DrillKind::nearest_tones, DrillKind::common_tones);
  const auto rhythm = GENERATE(DrillRhythm::quarters, DrillRhythm::eighths, DrillRhythm::triplets,
                               DrillRhythm::off_beat, DrillRhythm::three_over_four);
  for (unsigned seed = 1; seed <= 6; ++seed) {
    DrillSettings settings;
    settings.kind = kind;
    settings.rhythm = rhythm;
    settings.range = {55, 79};
    const Drill drill = drilled(random_chart(seed, 16), settings);
    check_range(drill, settings);
    const Analysis analysis = strictly(drill);
    INFO("seed " << seed << ": " << names_of(drill));
    CHECK(analysis.connections.size() > 5);
    for (const Connection& connection : analysis.connections) {
      INFO("into chord " << connection.to_chord);
      CHECK(connection.took_nearest == true);
      if (kind == DrillKind::nearest_tones) CHECK(connection.kind != ConnectionKind::common_tone);
    }
  }
}

TEST_CASE("where the two chords share the tone that is left, the common-tone line sounds it again") {
  DrillSettings settings;
  settings.kind = DrillKind::common_tones;
  const Drill drill = drilled(chart("Cmaj7 | Am7 | Dm7 | G7"), settings);
  const Analysis analysis = strictly(drill);
  CHECK(analysis.connections.size() == 3);
  for (const Connection& connection : analysis.connections) CHECK(connection.kind == ConnectionKind::common_tone);
}

TEST_CASE("left on G7's F, E of C7 is nearer than G; left on C, B and D of G7 are told apart") {
  // The nearest tones: E is a half step under F, G a whole step over it; under C lies B, a half step away, over it D.
  DrillSettings settings;
  settings.tones_a_bar = 1;
  const Drill drill = drilled(chart("G7 | C7 | G7"), settings);
  for (const Connection& connection : strictly(drill).connections) CHECK(connection.took_nearest == true);
}

TEST_CASE("where two tones are equally near, the other is kept beside the one taken") {
  DrillSettings settings;
  settings.tones_a_bar = 1;
  settings.range = {60, 72};
  // From any tone of Cdim7 to Gdim7's neighbours: C lies between B flat and D flat's neighbours; search for one.
  int found = 0;
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const Drill drill = drilled(random_chart(seed, 12), settings);
    for (const auto& choice : drill.open_choices) {
      REQUIRE(choice.note > 0);
      const int from = midi_number(drill.solo.notes[choice.note - 1].pitch);
      const int taken = midi_number(drill.solo.notes[choice.note].pitch);
      CHECK(midi_number(choice.other) - from == from - taken);
      CHECK((midi_number(choice.other) >= 60 && midi_number(choice.other) <= 72));
      ++found;
    }
  }
  CHECK(found > 5);
}

TEST_CASE("where the room is too small for all four tones, third and seventh come first") {
  struct Row {
    DrillKind kind;
    std::optional<int> from_tone;
    std::optional<Inversion> inversion;
  };
  const std::vector<Row> rows{{DrillKind::arpeggios, std::nullopt, std::nullopt},
                              {DrillKind::arpeggios, 5, std::nullopt},
                              {DrillKind::arpeggios, 7, std::nullopt},
                              {DrillKind::arpeggios, std::nullopt, Inversion::root_position},
                              {DrillKind::arpeggios, std::nullopt, Inversion::second},
                              {DrillKind::descents, std::nullopt, std::nullopt}};
  for (const Row& row : rows)
    for (const Way way : {Way::up, Way::down}) {
      DrillSettings settings;
      settings.kind = row.kind;
      settings.way = way;
      settings.from_tone = row.from_tone;
      settings.inversion = row.inversion;
      settings.rhythm = DrillRhythm::three_over_four;
      const Drill drill = drilled(chart("Bbmaj7 G7 | Cm7 F7 | Dm7 Edim7 | Fm7 Bb6"), settings);
      INFO(names_of(drill));
      for (const auto& sounding : drill.harmony.chords) {
        const Chord& chord = sounding.chord;
        std::set<int> played;
        for (const auto& note : drill.solo.notes)
          if (note.onset >= sounding.onset && note.onset < sounding.onset + sounding.duration)
            played.insert(pitch_class(note.pitch.name));
        INFO(chord.symbol);
        for (const auto& guide : guide_tones(chord)) CHECK(played.contains(pitch_class(note_at(chord.root, guide))));
      }
      CHECK(std::ranges::any_of(drill.remarks, [](const std::string& remark) {
        return remark.find("third and seventh come first") != std::string::npos;
      }));
    }
}

TEST_CASE("every arpeggio of the sheet goes the way it was asked to, and none is missing") {
  const auto way = GENERATE(Way::up, Way::down);
  const auto rhythm = GENERATE(DrillRhythm::quarters, DrillRhythm::eighths, DrillRhythm::triplets,
                               DrillRhythm::off_beat, DrillRhythm::three_over_four);
  for (unsigned seed = 1; seed <= 6; ++seed) {
    DrillSettings settings;
    settings.kind = DrillKind::arpeggios;
    settings.way = way;
    settings.rhythm = rhythm;
    settings.range = {52, 80};
    const Drill drill = drilled(random_chart(seed, 16), settings);
    check_range(drill, settings);
    const Analysis analysis = strictly(drill);
    INFO("seed " << seed << ": " << names_of(drill));
    for (const std::string& remark : drill.remarks) CHECK(remark.starts_with("No room for every tone"));
    std::size_t notes = 0;
    for (const Arpeggio& arpeggio : analysis.arpeggios) {
      CHECK(arpeggio.direction == (way == Way::up ? Direction::ascending : Direction::descending));
      CHECK(arpeggio.straight_descent == (way == Way::down));
      notes += arpeggio.notes.size();
    }
    CHECK(notes == drill.solo.notes.size());
  }
}

TEST_CASE("every arpeggio has the inversion that was asked for, or starts from the tone that was") {
  const auto inversion = GENERATE(Inversion::root_position, Inversion::first, Inversion::second, Inversion::third);
  const auto way = GENERATE(Way::up, Way::down);
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  settings.way = way;
  settings.inversion = inversion;
  settings.range = {53, 80};
  const auto form = chart("Dm7 G7 | Cmaj7 | Fm7 | Bb7 Eb7 | Abmaj7 | %");
  for (const Arpeggio& arpeggio : strictly(drilled(form, settings)).arpeggios) CHECK(arpeggio.inversion == inversion);
  settings.inversion.reset();
  for (const int number : {1, 3, 5, 7}) {
    settings.from_tone = number;
    const Drill drill = drilled(form, settings);
    const Analysis analysis = strictly(drill);
    CHECK(analysis.arpeggios.size() == 8);
    for (const Arpeggio& arpeggio : analysis.arpeggios) CHECK(arpeggio.degrees.front().number == number);
  }
}

TEST_CASE("every inversion has a chorus of its own") {
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  settings.every_inversion = true;
  settings.choruses = 4;
  const Drill drill = drilled(chart("Dm7 | G7"), settings);
  std::string inversions;
  for (const Arpeggio& arpeggio : strictly(drill).arpeggios) inversions += to_string(arpeggio.inversion) + "; ";
  CHECK(inversions ==
        "root position; root position; first inversion; first inversion; second inversion; second inversion; "
        "third inversion; third inversion; ");
}

DrillSettings cell_settings(const std::vector<insideline::CellTone>& tones) {
  DrillSettings settings;
  settings.kind = DrillKind::cells;
  settings.cells = {{tones, std::nullopt}};
  return settings;
}

std::string heard_degrees(const Drill& drill) {
  std::string degrees;
  for (const auto& label : strictly(drill).labels) degrees += to_string(*label.degree) + " ";
  return degrees;
}

TEST_CASE("a cell is played over and over, and begins anew with each chord") {
  const DrillSettings settings = cell_settings({{{7, 0}, false}, {{3, 0}, false}, {{5, 0}, false}});
  const Drill drill = drilled(chart("Dm7 G7 | Cmaj7"), settings);
  CHECK(heard_degrees(drill) == "b7 b3 5 b7 b7 3 5 b7 7 3 5 7 3 5 7 3 ");
  CHECK(drill.remarks.empty());
}

TEST_CASE("over and over, a cell stays where it is, and over a wide range within two octaves and a half") {
  constexpr int two_and_a_half_octaves = 30;
  DrillSettings settings = cell_settings({{{3, 0}, false}, {{5, 0}, false}});
  settings.range = {36, 96};
  CHECK(names_of(drilled(chart("Cmaj7"), settings)) == "E4 G4 E4 G4 E4 G4 E4 G4");
  for (const std::vector<int>& numbers : {std::vector{3, 5}, std::vector{7, 3, 5}, std::vector{1, 2, 3, 5}}) {
    settings.cells.front().tones.clear();
    for (const int number : numbers) settings.cells.front().tones.push_back({{number, 0}, false});
    for (unsigned seed = 1; seed <= 8; ++seed) {
      const Drill drill = drilled(insideline::tests::random_chart(seed, 32), settings);
      const auto [low, high] = std::ranges::minmax_element(
          drill.solo.notes, {}, [](const insideline::Note& note) { return midi_number(note.pitch); });
      INFO("cell of " << numbers.size() << ", chart " << seed);
      CHECK(midi_number(high->pitch) - midi_number(low->pitch) <= two_and_a_half_octaves);
    }
  }
}

TEST_CASE("an alteration in a cell is played as written, and the chord that has another tone is named") {
  const DrillSettings settings = cell_settings({{{7, -1}, true}, {{3, 0}, false}});
  const Drill drill = drilled(chart("Cmaj7"), settings);
  for (std::size_t i = 0; i < drill.solo.notes.size(); i += 2) CHECK(midi_number(drill.solo.notes[i].pitch) % 12 == 10);
  REQUIRE(drill.remarks.size() == 1);
  CHECK(drill.remarks.front() == "Cmaj7 has 7 of its own; b7 is played, as the cell says.");
}

TEST_CASE("a number that the chord lacks is of its usual scale, and the sheet says so") {
  const DrillSettings settings = cell_settings({{{1, 0}, false}, {{2, 0}, false}, {{3, 0}, false}, {{5, 0}, false}});
  const Drill drill = drilled(chart("Cm7 Bm7b5 | F7(b9)"), settings);
  CHECK(names_of(drill).find("-") == std::string::npos);
  const std::vector<int> classes{0, 2, 3, 7, 11, 0, 2, 5, 5, 6, 9, 0, 5, 6, 9, 0};
  REQUIRE(drill.solo.notes.size() == classes.size());
  for (std::size_t i = 0; i < classes.size(); ++i) CHECK(midi_number(drill.solo.notes[i].pitch) % 12 == classes[i]);
  CHECK(drill.remarks ==
        std::vector<std::string>{"2 over Cm7 (dorian) is of the chord's usual scale, not of the chord.",
                                 "b2 over Bm7b5 (locrian) is of the chord's usual scale, not of the chord.",
                                 "b2 over Bm7b5 is a note to avoid: pass through it and do not hold it.",
                                 "Locrian natural 2, with a 9 that is not lowered, is as usual over a half-diminished "
                                 "chord: write it as m9b5 in the changes to practise that."});
}

TEST_CASE("a cell that names a tone twice lies as its numbers do and stays within a tenth") {
  const DrillSettings settings = cell_settings({{{1, 0}, false}, {{3, 0}, false}, {{5, 0}, false}, {{3, 0}, false}});
  CHECK(names_of(drilled(chart("C7 F7"), settings)) == "C4 E4 G4 E4 F4 A4 C5 A4");
}

TEST_CASE("a chord that is over before the cell is named") {
  const DrillSettings settings = cell_settings({{{1, 0}, false}, {{3, 0}, false}, {{5, 0}, false}, {{7, 0}, false}});
  const Drill drill = drilled(chart("C7 F7 Bb7 Eb7"), settings);
  CHECK(heard_degrees(drill) == "1 3 1 3 1 3 1 3 ");
  REQUIRE(drill.remarks.size() == 4);
  CHECK(drill.remarks.front() == "Bb7 (bar 1) is over before the cell is, which stops where the chord does.");
}

TEST_CASE("the plainest cell fills every chord of every chart in every rhythm, with each chord's own tones") {
  const auto rhythm = GENERATE(DrillRhythm::quarters, DrillRhythm::eighths, DrillRhythm::triplets,
                               DrillRhythm::off_beat, DrillRhythm::three_over_four);
  for (unsigned seed = 1; seed <= 6; ++seed) {
    DrillSettings settings = cell_settings({{{1, 0}, false}, {{3, 0}, false}, {{5, 0}, false}, {{7, 0}, false}});
    settings.rhythm = rhythm;
    const Drill drill = drilled(random_chart(seed, 16), settings);
    INFO("seed " << seed << ": " << names_of(drill));
    check_range(drill, settings);
    std::set<std::size_t> played;
    std::size_t tone = 0;
    std::optional<int> stretch;
    for (const Note& note : drill.solo.notes) {
      const auto at = chord_index_at(drill.harmony, note.onset);
      REQUIRE(at);
      played.insert(*at);
      const insideline::SoundingChord& sounding = drill.harmony.chords[*at];
      tone = stretch == sounding.stretch ? (tone + 1) % 4 : 0;
      stretch = sounding.stretch;
      const auto wanted = cell_tone(sounding.chord, settings.cells.front().tones[tone]);
      REQUIRE(wanted);
      CHECK(midi_number(note.pitch) % 12 == (pitch_class(sounding.chord.root) + pitch_class_above_root(*wanted)) % 12);
    }
    CHECK(played.size() == drill.harmony.chords.size());
    CHECK(strictly(drill).labels.size() == drill.solo.notes.size());
  }
}

TEST_CASE("no bar repeats the figure of the bar before") {
  DrillSettings settings;
  const Drill drill = drilled(chart("C7 | % | % | % | % | %"), settings);
  std::set<std::string> bars;
  std::string names = names_of(drill);
  std::size_t at = 0;
  std::string before;
  while (at != std::string::npos) {
    const std::size_t end = names.find(" | ", at);
    const std::string bar = names.substr(at, end == std::string::npos ? end : end - at);
    CHECK(bar != before);
    before = bar;
    at = end == std::string::npos ? end : end + 3;
  }
}

TEST_CASE("the same seed gives the same sheet, another seed another one that is as good") {
  DrillSettings settings;
  settings.range = {52, 81};
  const auto form = random_chart(3, 24);
  const std::string plain = names_of(drilled(form, settings));
  CHECK(names_of(drilled(form, settings)) == plain);
  std::set<std::string> variants{plain};
  const int cost = drilled(form, settings).cost;
  for (unsigned seed = 1; seed <= 8; ++seed) {
    settings.seed = seed;
    const Drill drill = drilled(form, settings);
    CHECK(drill.cost == cost);
    variants.insert(names_of(drill));
  }
  CHECK(variants.size() > 2);
}

TEST_CASE("moved to another key with its range, the sheet is the same sheet") {
  DrillSettings settings;
  settings.range = {55, 79};
  const Drill low = drilled(chart("Dm7 | G7 | Cmaj7 | Am7"), settings);
  settings.range = {58, 82};
  const Drill high = drilled(chart("Fm7 | Bb7 | Ebmaj7 | Cm7"), settings);
  REQUIRE(low.solo.notes.size() == high.solo.notes.size());
  CHECK(low.cost == high.cost);
  for (std::size_t i = 0; i < low.solo.notes.size(); ++i)
    CHECK(midi_number(high.solo.notes[i].pitch) - midi_number(low.solo.notes[i].pitch) == 3);
}

TEST_CASE("there is no sheet without chords, and none in less than an octave") {
  const auto silent = drill_over(chart("N.C. | %"), {});
  REQUIRE_FALSE(silent);
  CHECK(silent.error() == "there is no chord to play over: every bar is N.C.");
  DrillSettings settings;
  settings.range = {60, 71};
  const auto narrow = drill_over(chart("C7"), settings);
  REQUIRE_FALSE(narrow);
  CHECK(narrow.error() == "the range C4 to B4 is smaller than an octave");
}

TEST_CASE("a sheet for a tenor is written a ninth above where it sounds") {
  Drill drill = drilled(chart("C7"), {});
  set_instrument(drill.solo, *insideline::instrument_named("tenor-sax"));
  CHECK(drill.solo.part == "Tenor saxophone");
  for (const Note& note : drill.solo.notes) CHECK(midi_number(note.written) - midi_number(note.pitch) == 14);
}

TEST_CASE("a sheet spells each tone as its chord does") {
  DrillSettings settings;
  settings.kind = DrillKind::arpeggios;
  const Drill drill = drilled(chart("F#m7 | B7 | Emaj7 | Ebm7 | Ab7 | Dbmaj7"), settings);
  for (const Note& note : drill.solo.notes) {
    const auto& chord = drill.harmony.chords[insideline::chord_index_at(drill.harmony, note.onset).value()].chord;
    INFO(to_string(note.pitch) << " over " << chord.symbol);
    CHECK(std::ranges::any_of(
        chord.tones, [&](const insideline::Degree& tone) { return note_at(chord.root, tone) == note.pitch.name; }));
  }
}
