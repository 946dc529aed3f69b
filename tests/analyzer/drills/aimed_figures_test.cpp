#include "analyzer/drills/aimed_figures.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using insideline::Chord;
using insideline::DrillFigure;
using insideline::DrillFigures;
using insideline::DrillKind;
using insideline::DrillSegment;
using insideline::DrillSettings;
using insideline::enclosed_tone;
using insideline::EnclosedTone;
using insideline::guide_classes;

namespace {

Chord chord_named(const std::string& symbol) { return insideline::parse_chord_symbol(symbol)->value(); }

DrillSegment segment_of(std::size_t places, bool is_change) {
  DrillSegment segment;
  segment.is_change = is_change;
  for (std::size_t i = 0; i < places; ++i)
    segment.slots.push_back({insideline::Beats(static_cast<std::int64_t>(i)), insideline::Beats(1)});
  return segment;
}

}  // namespace

TEST_CASE("the tone above a major third is a half step away, above a minor third a whole step") {
  CHECK(enclosed_tone(chord_named("Cmaj7")) == EnclosedTone{4, 1, 1});
  CHECK(enclosed_tone(chord_named("C7")) == EnclosedTone{4, 1, 1});
  CHECK(enclosed_tone(chord_named("Cm7")) == EnclosedTone{3, 2, 1});
  CHECK(enclosed_tone(chord_named("C7sus4")) == EnclosedTone{5, 2, 1});
  CHECK_FALSE(enclosed_tone(chord_named("C5")));
}

TEST_CASE("in one voice only what the chord has of its own guides; in two, root and fifth fill in") {
  CHECK(guide_classes(chord_named("Dm7"), 1) == std::vector<int>{5, 0});
  CHECK(guide_classes(chord_named("D"), 1) == std::vector<int>{6});
  CHECK(guide_classes(chord_named("D"), 2) == std::vector<int>{6, 2});
  CHECK(guide_classes(chord_named("D5"), 1) == std::vector<int>{9, 2});
}

TEST_CASE("every enclosing figure enters on the third and ends around the next one") {
  const Chord next = chord_named("G7");
  const DrillFigures set = enclosing_figures(chord_named("Dm7"), segment_of(5, true), {}, &next);
  CHECK(set.figures.size() > 10);
  for (const DrillFigure& figure : set.figures) {
    const auto notes = set.notes_of(figure);
    REQUIRE(notes.size() == 5);
    CHECK(notes.front() % 12 == 5);
    const int higher = std::max(notes[3], notes[4]);
    CHECK(higher % 12 == 0);
    CHECK(std::min(notes[3], notes[4]) == higher - 2);
    CHECK(notes[2] != notes[3]);
  }
}

TEST_CASE("every descending figure comes down tone by tone after its first note") {
  const DrillFigures set = descending_figures(chord_named("Dm7"), segment_of(5, true), {});
  CHECK(set.as_asked);
  for (const DrillFigure& figure : set.figures) {
    const auto notes = set.notes_of(figure);
    REQUIRE(notes.size() == 5);
    CHECK(std::ranges::is_sorted(notes.subspan(1), std::ranges::greater{}));
    CHECK(notes[0] != notes[1]);
  }
}

TEST_CASE("two guide-tone voices lie less than an octave apart, the upper one first") {
  DrillSettings settings;
  settings.kind = DrillKind::guide_tones;
  settings.voices = 2;
  const DrillFigures set = guide_tone_figures(chord_named("G7"), settings);
  CHECK(set.figures.size() == 3);  // F4 B4 F5 B5 lie between C4 and C6
  for (const DrillFigure& figure : set.figures) {
    const auto notes = set.notes_of(figure);
    CHECK((notes[0] - notes[1] > 0 && notes[0] - notes[1] < 12));
  }
}
