// Musical rules that real playing asks for, each with a line where it decides.
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/labelled.hpp"

#include <algorithm>
#include <string>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::ExplainedReading;
using insideline::Figure;
using insideline::Note;
using insideline::Placement;
using insideline::Role;
using insideline::Settings;
using insideline::tests::codes;
using insideline::tests::labelled;
using insideline::tests::LabelledLine;
using Text = std::string;

namespace {

std::vector<ExplainedReading> readings_of(const LabelledLine& line, std::size_t note) {
  return insideline::explain_note(line.solo, line.harmony, insideline::find_phrases(line.solo, line.harmony), note);
}

template <typename Is>
double probability(const std::vector<ExplainedReading>& readings, Is is) {
  double sum = 0.0;
  for (const ExplainedReading& reading : readings)
    if (is(reading)) sum += reading.probability;
  return sum;
}

double probability(const std::vector<ExplainedReading>& readings, Figure figure) {
  return probability(readings, [&](const ExplainedReading& reading) { return reading.figure == figure; });
}

double probability(const std::vector<ExplainedReading>& readings, Role role) {
  return probability(readings, [&](const ExplainedReading& reading) { return reading.role == role; });
}

bool has_row(const ExplainedReading& reading, const Text& name) {
  return std::ranges::any_of(reading.rows, [&](const auto& row) { return row.name == name; });
}

}  // namespace

TEST_CASE("a bare diminished symbol is heard as the seventh chord that players make of it") {
  const auto line = labelled("Bdim@0", "B4:1 Ab5:1 F5:1 D5:1");
  CHECK(line.labels[1].role == Role::chord_tone);
  CHECK(line.labels[1].figure == Figure::seventh);
  CHECK(to_string(*line.labels[1].degree) == "bb7");
  CHECK(line.harmony.chords[0].chord.tones.size() == 3);  // the symbol says a triad, and says so still
}

TEST_CASE("the bass of a slash chord is a member: F/G is a G9sus") {
  const auto line = labelled("F/G@0", "C5:1 A4:1 G4:2");
  CHECK(line.labels[2].role == Role::chord_tone);
  CHECK(line.labels[2].figure == Figure::ninth);
}

TEST_CASE("the minor seventh over a plain triad or a sixth chord may be a colour") {
  for (const Text chord : {"C@0", "C6@0"})
    CHECK(labelled(chord, "E4:1/2 G4:1/2 Bb4:2 G4:1").labels[2].role == Role::tension);
}

TEST_CASE("over a written alt every altered ninth and fifth is a colour, whichever way it moves") {
  CHECK(codes(labelled("G7alt@0", "F4:1/2 Ab4:1/2 B4:1/2 Eb5:1/2 Bb4:1/2 Db5:1/2 B4:1").labels) ==
        "CT:b7 T:b9 CT:3 T:b13 T:#9 T:#11 CT:3");
}

TEST_CASE("an eleventh that is held over a dominant may be meant") {
  const auto line = labelled("C7@0", "E4:1/2 G4:1/2 F5:3 C5:1 G4:1");
  CHECK(probability(readings_of(line, 2), Role::tension) > 0.3);
}

TEST_CASE("a note of two beats does not pass") {
  const auto slow = labelled("Cm6@0", "C5:1/2 D5:4 Eb5:1");
  CHECK(slow.labels[1].role == Role::tension);
  const auto quick = labelled("Cm6@0", "C5:1/2 D5:1/2 Eb5:1");
  CHECK(quick.labels[1].figure == Figure::passing_tone);
}

TEST_CASE("three semitones are a step only where the source spells them so") {
  LabelledLine line = labelled("Em7@0", "G4:1/2 F#4:1/2 D#4:1/2 D4:1");
  const auto spelled = readings_of(line, 2);
  CHECK(probability(spelled, Figure::passing_tone) == Approx(0.0).margin(1e-9));  // F# to D# is a third
  line = labelled("Fm@0", "F4:1/2 E4:1/2 Db4:1/2 C4:1");
  CHECK(probability(readings_of(line, 2), Figure::passing_tone) > 0.3);  // E to Db is an augmented second
  for (Note& note : line.solo.notes) note.spelled_by_chords = true;
  CHECK(probability(readings_of(line, 2), Figure::passing_tone) == Approx(0.0).margin(1e-9));
}

TEST_CASE("a tone of the chord before may be carried on without being held or resolved") {
  const auto line = labelled("Dm7@0 Ebmaj7@4", "D4:1 F4:1 A4:1 C5:1 A4:1/2 C5:1/2 A4:1/2 F4:1/2 G4:2");
  const auto carried = [](const ExplainedReading& reading) {
    return reading.governor == std::size_t{0} && reading.role == Role::chord_tone;
  };
  CHECK(probability(readings_of(line, 4), carried) > 0.02);
  const auto late = labelled("Dm7@0 Ebmaj7@4", "D4:1 F4:1 A4:1 C5:1 Bb4:1 G4:1 Eb4:1 A4:1");
  CHECK(probability(readings_of(late, 7), carried) == Approx(0.0).margin(1e-9));  // three beats on, it is gone
}

TEST_CASE("a held note is followed across every change under it") {
  const auto line = labelled("C@0 Am@2 G@4", "C5:5 B4:1 G4:2");
  CHECK(line.labels[0].placement == Placement::suspension);
  CHECK(line.labels[0].role == Role::chord_tone);
}

TEST_CASE("a repeated note carries its reading across a phrase end") {
  // the C is suspended over G though the line breathes before it is struck again
  CHECK(codes(labelled("F@0 G@4", "A4:1 F4:1 C5:3/2 r:1/2 C5:1 B4:3").labels) == "CT:3 CT:1 CT:5 CT:5@prev-sus CT:3");
}

TEST_CASE("before the first chord there is no chord, but a pickup of at most a bar leads into bar 1") {
  const auto break_first = labelled("N.C.@0 C@4", "E4:1 D4:1 C4:1 G4:1 E4:4");
  CHECK(break_first.labels[3].role == Role::no_chord);
  const auto pickup = labelled("C@2", "G4:1 A4:1 E4:2", -2);
  CHECK(pickup.labels[0].role == Role::chord_tone);
  CHECK(pickup.labels[0].governor == std::size_t{0});
}

TEST_CASE("a side-slip is outside and says which chord it plays") {
  const auto line = labelled("Dm7@0",
                             "D5:1/2 C5:1/2 A4:1/2 F4:1/2 Eb4:1/2 Gb4:1/2 Bb4:1/2 Db5:1/2 A4:1/2 C5:1/2 B4:1/2 A4:1/2 "
                             "F4:1");
  for (std::size_t i = 5; i < 8; ++i) CHECK(line.labels[i].role == Role::outside);
  CHECK(line.labels[6].reason == "outside: with its neighbours it plays Ebm7, a half step above Dm7");
}

TEST_CASE("a chord tone inside a run may be on its way, which is unlikely") {
  const auto readings = readings_of(labelled("Cmaj7@0", "F4:1/2 E4:1/2 D4:1/2 C4:1"), 1);
  REQUIRE(readings.size() == 2);
  CHECK(readings[0].role == Role::chord_tone);
  CHECK(readings[1].figure == Figure::passing_tone);
  CHECK(readings[1].probability > 0.0);
  CHECK(readings[1].probability < 0.2);
}

TEST_CASE("an enclosure with a chord tone as one of its sides pays for it, less so across a change") {
  const auto inside = readings_of(labelled("C7@0", "G4:1 D5:1/2 Bb4:1/2 C5:2"), 1);
  const auto half = std::ranges::find(inside, Figure::enclosure, &ExplainedReading::figure);
  REQUIRE(half != inside.end());
  CHECK(has_row(*half, "encloses with a chord tone"));
  CHECK_FALSE(has_row(*half, "encloses across the change"));
  const auto across = readings_of(labelled("F7@0 Bbmaj7@2", "A4:1 Eb5:1/2 C#5:1/2 D5:2", 3), 2);
  const auto other = std::ranges::find(across, Figure::enclosure, &ExplainedReading::figure);
  REQUIRE(other != across.end());
  CHECK(has_row(*other, "encloses across the change"));
}

TEST_CASE("how long a tension must be to count as held is the user's choice") {
  Settings settings;
  const auto probability_of_tension = [&](const Beats& held) {
    settings.held_tension = held;
    return labelled("G7@0", "B4:1 E5:1 D5:1/2 B4:1/2", 1, {}, settings).labels[1];
  };
  const auto strict = probability_of_tension(Beats(2));
  const auto generous = probability_of_tension(Beats(1));
  const double strict_share = strict.role == Role::tension ? strict.role_probability : 1.0 - strict.role_probability;
  const double generous_share =
      generous.role == Role::tension ? generous.role_probability : 1.0 - generous.role_probability;
  CHECK(generous_share > strict_share + 0.02);
}

TEST_CASE("the confidence is that of the label shown, the role's stands beside it") {
  for (const auto& label : labelled("C@0 F@2", "G3:2 Bb3:1 A3:1").labels)
    CHECK(label.confidence <= label.role_probability);
  const auto line = labelled("C@0 F@2", "G3:2 Bb3:1 A3:1");
  double role = line.labels[1].confidence;
  for (const auto& other : line.labels[1].alternatives)
    if (other.role == line.labels[1].role) role += other.probability;
  CHECK(line.labels[1].role_probability == Approx(role).margin(0.03));
}

TEST_CASE("sentences and other readings are made only when asked for") {
  Settings settings;
  settings.detail = insideline::Detail::first_page;
  const auto bare = labelled("G7@0", "B4:1 E5:2 D5:1", 1, {}, settings);
  const auto told = labelled("G7@0", "B4:1 E5:2 D5:1");
  CHECK(codes(bare.labels) == codes(told.labels));
  CHECK(bare.labels[1].reason.empty());
  CHECK(bare.labels[1].alternatives.empty());
  CHECK_FALSE(told.labels[1].reason.empty());
}

TEST_CASE(
    "a note half a beat ahead that is tied into its chord belongs to it, also on top of an arpeggio of the old one") {
  const auto line = labelled("A7b9@0 Dm7@4", "C#5:3/2 E5:1/2 G4:1/2 Bb4:1/2 C#5:1/2 F5:5/2 E5:1/2 D5:1");
  CHECK(line.labels[5].placement == Placement::anticipation);
  CHECK(line.labels[5].figure == Figure::third);
}
