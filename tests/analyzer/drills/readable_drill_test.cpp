#include "analyzer/drills/readable_drill.hpp"

#include "analyzer/drills/drill_in_keys.hpp"
#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>

using insideline::Changes;
using insideline::Drill;
using insideline::DrillSettings;
using insideline::Instrument;
using insideline::instruments;
using insideline::Interval;
using insideline::Key;
using insideline::KeyOrder;
using insideline::read_key;
using insideline::readable_drill;
using insideline::tests::chart;
using insideline::tests::drilled;

namespace {

constexpr int most_signs_read = 6;

Interval read_above(const Instrument& instrument) {
  return {-instrument.sounding_minus_written.steps, -instrument.sounding_minus_written.semitones};
}

Changes two_five_one_in(const Key& key) {
  Changes changes = chart("Dm7 | G7 | Cmaj7 | %");
  changes = transposed(changes, interval_between(Key{}, key));
  changes.key = key;
  return changes;
}

}  // namespace

TEST_CASE("no instrument reads a key of more than six signs, whatever the tune's is and through all keys") {
  for (const Instrument& instrument : instruments()) {
    const Interval up = read_above(instrument);
    for (const bool minor : {false, true})
      for (int fifths = -most_signs_read; fifths <= most_signs_read; ++fifths)
        CHECK(std::abs(read_key({fifths, minor}, up).fifths) <= most_signs_read);
    DrillSettings settings;
    settings.range = sounding_range(instrument);
    for (const KeyOrder order : {KeyOrder::fourths, KeyOrder::half_steps}) {
      const auto sheet = drill_in_keys(two_five_one_in({4, false}), settings, order);
      REQUIRE(sheet);
      const Drill read = readable_drill(sheet->drill, up);
      REQUIRE(read.solo.keys.size() == sheet->keys.size());
      for (std::size_t i = 0; i < sheet->keys.size(); ++i) {
        INFO(instrument.name << " in " << to_string(sheet->keys[i].key));
        const Key printed = transposed(read.solo.keys[i].key, up);
        CHECK(std::abs(read.solo.keys[i].key.fifths + fifths_of(transposed(insideline::NoteName{}, up))) <=
              most_signs_read);
        CHECK(printed == read_key(sheet->keys[i].key, up));
      }
    }
  }
}

TEST_CASE("an alto reads E as D flat, chords and notes with it, and sounds as before") {
  const Instrument alto = *insideline::instrument_named("alto-sax");
  const Interval up = read_above(alto);
  CHECK(to_string(read_key({4, false}, up)) == "Db");
  CHECK(to_string(read_key({5, false}, up)) == "Ab");
  CHECK(to_string(read_key({3, false}, up)) == "F#");
  CHECK(to_string(read_key({4, false}, Interval{})) == "E");
  DrillSettings settings;
  settings.range = sounding_range(alto);
  const Drill drill = drilled(two_five_one_in({4, false}), settings);
  const Drill read = readable_drill(drill, up);
  CHECK(transposed(read.harmony.chords[0].chord, up).symbol == "Ebm7");
  CHECK(transposed(read.harmony.chords[1].chord, up).symbol == "Ab7");
  CHECK(transposed(read.harmony.chords[2].chord, up).symbol == "Dbmaj7");
  for (std::size_t i = 0; i < drill.solo.notes.size(); ++i) {
    CHECK(midi_number(read.solo.notes[i].pitch) == midi_number(drill.solo.notes[i].pitch));
    CHECK(transposed(read.solo.notes[i].pitch, up).name.alter <= 0);
  }
  for (std::size_t i = 0; i < drill.open_choices.size(); ++i)
    CHECK(midi_number(read.open_choices[i].other) == midi_number(drill.open_choices[i].other));
}

TEST_CASE("where the key is plain already, and where none is known, no name changes") {
  const Interval up = read_above(*insideline::instrument_named("alto-sax"));
  for (const Changes& changes : {two_five_one_in({-3, false}), chart("Dm7 | G7 | Cmaj7 | %")}) {
    const Drill drill = drilled(changes, DrillSettings{});
    const Drill read = readable_drill(drill, up);
    for (std::size_t i = 0; i < drill.solo.notes.size(); ++i)
      CHECK(read.solo.notes[i].pitch == drill.solo.notes[i].pitch);
  }
}
