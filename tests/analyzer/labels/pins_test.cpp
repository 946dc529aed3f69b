// Labels under what a teacher says of single notes.
#include "analyzer/labels/pins.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/label_file.hpp"
#include "tests/support/labelled.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::Against;
using insideline::Beats;
using insideline::Degree;
using insideline::Figure;
using insideline::Harmony;
using insideline::NoteLabel;
using insideline::Pin;
using insideline::Placement;
using insideline::Role;
using insideline::Settings;
using insideline::Solo;
using insideline::tests::code_of;

namespace {

Pin at(const Beats& onset) {
  Pin pin;
  pin.onset = onset;
  return pin;
}
Pin at(const Beats& onset, Role role) {
  Pin pin = at(onset);
  pin.role = role;
  return pin;
}
Pin at(const Beats& onset, Figure figure) {
  Pin pin = at(onset);
  pin.figure = figure;
  return pin;
}
Pin at(const Beats& onset, const Degree& degree) {
  Pin pin = at(onset);
  pin.degree = degree;
  return pin;
}
Pin over(Pin pin, Against against) {
  pin.against = against;
  return pin;
}

struct PinnedLine {
  PinnedLine(std::string_view chords, std::string_view melody, std::vector<Pin> pins) {
    solo = insideline::tests::solo_from(melody);
    harmony = insideline::tests::harmony_from(chords, solo);
    settings.pins = std::move(pins);
    phrases = find_phrases(solo, harmony, settings);
    labels = label_notes(solo, harmony, phrases, settings);
  }
  [[nodiscard]] std::string code(std::size_t note) const { return code_of(labels[note]); }
  [[nodiscard]] std::string fault() const {
    const auto faults = pin_faults(solo, harmony, phrases, settings);
    return faults.empty() ? "" : faults.front().why;
  }

  Solo solo;
  Harmony harmony;
  Settings settings;
  std::vector<insideline::Phrase> phrases;
  std::vector<NoteLabel> labels;
};

// F between E and G: as passing as a note can be.
constexpr const char* run = "E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1 C5:2";

}  // namespace

TEST_CASE("a note is what its listener says, without a doubt") {
  const PinnedLine own("Cmaj7@0", run, {});
  REQUIRE(own.code(3) == "PT");
  const PinnedLine line("Cmaj7@0", run, {at(Beats(3, 2), Role::tension)});
  CHECK(line.code(3) == "T:13");
  CHECK(line.labels[3].pinned);
  CHECK(line.labels[3].confidence == 1.0);
  CHECK(line.labels[3].role_probability == 1.0);
  CHECK_FALSE(line.labels[1].pinned);
  CHECK(line.fault().empty());
}

TEST_CASE("the reason says who set the label and what the program hears by itself") {
  const PinnedLine other("Cmaj7@0", run, {at(Beats(3, 2), Role::tension)});
  CHECK_THAT(other.labels[3].reason, Contains("set by hand: ") && Contains("by itself hears: passing tone ("));
  const PinnedLine same("Cmaj7@0", run, {at(Beats(3, 2), Figure::passing_tone)});
  CHECK_THAT(same.labels[3].reason, Contains("set by hand: ") && Contains("heard so by the program, too ("));
}

TEST_CASE("the neighbours of a pinned note are heard accordingly") {
  const std::string melody = "G4:1 F#4:1/2 F4:1/2 E4:1 C4:1";
  const PinnedLine own("Cmaj7@0", melody, {});
  const PinnedLine line("Cmaj7@0", melody, {at(Beats(3, 2), Role::outside)});
  REQUIRE(own.code(1) == "PT");
  CHECK(line.code(2) == "OUT");
  CHECK(line.labels[1].confidence < own.labels[1].confidence);
}

TEST_CASE("a reading that the program would not weigh is there when a listener asks for it") {
  const auto [chords, melody, pin, note, code] =
      GENERATE(table<std::string, std::string, Pin, std::size_t, std::string>({
          // two bars ahead of its chord, farther than anticipations are looked for
          {"G7@0 Cmaj7@8", "E4:1 B3:7 C4:4", over(at(Beats(0), Figure::third), Against::next), 0, "CT:3@next"},
          // three beats into the new chord, later than tones of the old one are looked for
          {"Dm7@0 G7@4", "F4:4 D4:3 A4:1", over(at(Beats(7), Role::chord_tone), Against::previous), 2, "CT:5@prev-sus"},
          // a long chord tone on the downbeat that is to pass
          {"Cmaj7@0", "D4:2 E4:2 F4:2 G4:2", at(Beats(2), Figure::passing_tone), 1, "PT"},
          // a chord tone as the first half of an enclosure of F
          {"Cmaj7@0 F6@2", "E4:1 G4:1 F4:2", at(Beats(0), Figure::enclosure), 0, "ENC"},
          // and as an outside note
          {"Cmaj7@0", "E4:1 G4:1 C5:2", at(Beats(1), Role::outside), 1, "OUT"},
      }));
  const PinnedLine line(chords, melody, {pin});
  CHECK(line.fault().empty());
  CHECK(line.code(note) == code);
  CHECK(line.labels[note].pinned);
}

TEST_CASE("without a chord named a degree is over the one that sounds, else the next, else the one before") {
  const PinnedLine line("G7@0 Cmaj7@4 Fm7@8", "Bb4:1 E4:3 Bb4:1 Ab4:3 E4:4",
                        {at(Beats(0), Degree{3, -1}), at(Beats(5), Degree{3, 0}), at(Beats(8), Degree{3, 0})});
  CHECK(to_string(*line.labels[0].degree) == "b3");  // the listener's name for it, not #9
  CHECK(line.labels[0].figure == Figure::third);
  CHECK(line.code(4) == "CT:3@prev-sus");
  CHECK_THAT(line.fault(), Contains("is not 3 of Cmaj7, Fm7 or G7"));
}

TEST_CASE("a pin that cannot be heard is a fault with its reason, and is left out") {
  const auto [melody, pin, why] = GENERATE(table<std::string, Pin, std::string>({
      {run, at(Beats(1, 2), Role::chord_tone), "F is no tone of Cmaj7"},
      {run, at(Beats(0), Role::tension), "E is a tone of Cmaj7, no tension"},
      {run, at(Beats(0), Degree{9, -1}), "E is not b9 of Cmaj7"},
      {run, at(Beats(0), Figure::fifth), "E is not the fifth of Cmaj7"},
      {run, over(at(Beats(0), Figure::root), Against::next), "no other chord follows"},
      {run, over(at(Beats(0), Figure::root), Against::previous), "no other chord goes before"},
      {run, over(at(Beats(1, 2), Figure::passing_tone), Against::next), "only a tone or a tension"},
      {run, at(Beats(1, 2), Figure::neighbour_tone), "goes back by step"},
      {run, at(Beats(1, 2), Figure::double_neighbour), "one of two notes a step above and below"},
      {run, at(Beats(1, 2), Figure::enclosure), "on both sides"},
      {run, at(Beats(1, 2), Figure::escape_tone), "left by leap"},
      {run, at(Beats(1, 2), Figure::pedal), "repeated"},
      {"E4:1 A4:1 E4:2", at(Beats(1), Figure::passing_tone), "in one direction"},
      {"E4:1 A4:1 E4:2", at(Beats(1), Figure::approach_tone), "by step into its target"},
      {"E4:1 A4:1 E4:2", at(Beats(1), Role::non_chord_tone), "no figure of a non-chord tone fits"},
  }));
  const PinnedLine line("Cmaj7@0", melody, {pin});
  const PinnedLine own("Cmaj7@0", melody, {});
  CHECK_THAT(line.fault(), Contains(why));
  CHECK(insideline::tests::codes(line.labels) == insideline::tests::codes(own.labels));
  CHECK(std::ranges::none_of(line.labels, &NoteLabel::pinned));
}

TEST_CASE("a note under N.C. has nothing to be heard against") {
  const PinnedLine line("N.C.@0 C@4", "A4:4 G4:4", {at(Beats(0), Role::outside)});
  CHECK(line.fault() == "no chord sounds there");
}

TEST_CASE("two ornaments on one pitch side by side do not go together") {
  const PinnedLine line("Cmaj7@0", "E4:1 F4:1 F4:1 G4:1",
                        {at(Beats(1), Figure::passing_tone), at(Beats(2), Figure::appoggiatura)});
  CHECK_THAT(line.fault(), Contains("does not go with what is said of the note before"));
  CHECK(line.labels[1].pinned);
  CHECK_FALSE(line.labels[2].pinned);
}

TEST_CASE("one note of an enclosure may be told without the other") {
  const std::string melody = "G4:1 F4:1/2 D#4:1/2 E4:2";
  const PinnedLine line("Cmaj7@0", melody, {at(Beats(1), Figure::enclosure), at(Beats(3, 2), Figure::approach_tone)});
  CHECK(line.fault().empty());
  CHECK(line.code(1) == "ENC");
  CHECK(line.code(2) == "APR");
  CHECK(line.labels[1].resolves_to == 3);
}

TEST_CASE("a suspension may be asked for by its name, and a note in the pickup belongs to the chord it leads to") {
  Pin late = at(Beats(4));
  late.placement = Placement::suspension;
  const PinnedLine hanging("Dm7@0 G7@4", "C5:4 C5:1 B4:3", {late});
  CHECK(hanging.code(1) == "CT:b7@prev-sus");
  auto solo = insideline::tests::solo_from("G4:1 E4:4", {}, Beats(-1));
  const auto harmony = insideline::tests::harmony_from("C@0", solo, Beats(0));
  Settings settings;
  settings.pins = {over(at(Beats(-1), Figure::fifth), Against::next)};
  const auto labels = label_notes(solo, harmony, find_phrases(solo, harmony, settings), settings);
  CHECK(labels[0].pinned);
  CHECK(labels[0].governor == 0);
}

TEST_CASE("a grace note can be told as well") {
  Pin pin = at(Beats(1), Figure::neighbour_tone);
  pin.grace = 1;
  const PinnedLine line("Cmaj7@0", "G4:1 F4:0 E4:1 C4:2", {pin});
  CHECK(line.labels[1].pinned);
  CHECK(line.labels[1].figure == Figure::neighbour_tone);
  CHECK(line.labels[1].resolves_to == 2);
  pin.figure = Figure::third;
  const PinnedLine wrong("Cmaj7@0", "G4:1 F4:0 E4:1 C4:2", {pin});
  CHECK_THAT(wrong.fault(), Contains("F is nothing of the kind"));
  CHECK_FALSE(wrong.labels[1].pinned);
}

TEST_CASE("law: a line told as the program hears it is labelled the same") {
  rc::check([] {
    const auto length = rc::gen::elementOf(std::vector<std::string>{"1/2", "1/2", "1/2", "1", "1/4", "1/3"});
    const auto pitch = rc::gen::elementOf(std::vector<std::string>{"C4", "D4", "Eb4", "E4", "F4", "F#4", "G4", "Ab4",
                                                                   "A4", "Bb4", "B4", "C5", "C#5", "D5", "r"});
    const auto chord = rc::gen::elementOf(std::vector<std::string>{"Cmaj7", "Dm7", "G7", "Bm7b5", "Ab7", "G7alt"});
    std::string melody = "C4:1/2";
    for (int i = 0; i < 20; ++i) melody += ' ' + *pitch + ':' + *length;
    std::string chords;
    for (int onset = 0; onset < 16; onset += 2) chords += *chord + '@' + std::to_string(onset) + ' ';
    const PinnedLine own(chords, melody, {});
    std::vector<Pin> pins;
    for (std::size_t i = 0; i < own.labels.size(); ++i) {
      const NoteLabel& label = own.labels[i];
      Pin pin = at(own.solo.notes[i].onset, label.figure);
      const bool member = label.role == Role::chord_tone || label.role == Role::tension;
      if (member && label.chord && label.governor != label.chord)
        pin.against = label.placement == Placement::anticipation ? Against::next : Against::previous;
      pins.push_back(pin);
    }
    const PinnedLine told(chords, melody, pins);
    RC_ASSERT(told.fault().empty());
    RC_ASSERT(insideline::tests::codes(told.labels) == insideline::tests::codes(own.labels));
    for (std::size_t i = 0; i < own.labels.size(); ++i) {
      RC_ASSERT(told.labels[i].resolves_to == own.labels[i].resolves_to);
      RC_ASSERT(told.labels[i].confidence == 1.0);
    }
  });
}
