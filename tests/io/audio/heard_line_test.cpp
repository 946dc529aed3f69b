#include "io/audio/heard_line.hpp"
#include "tests/support/tones.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using insideline::io::heard_line;
using insideline::io::HeardLine;
using insideline::io::HeardNote;
using insideline::tests::Tone;

namespace {

HeardLine heard(const std::vector<float>& sound) {
  const std::string bytes = insideline::tests::wav_of(sound);
  insideline::io::SoundFile file(bytes, "take.wav");
  return heard_line(file);
}

std::vector<int> pitches(const HeardLine& line) {
  std::vector<int> midi;
  for (const HeardNote& note : line.notes) midi.push_back(note.midi);
  return midi;
}

std::vector<int> pitches_of(const std::vector<Tone>& tones) {
  return pitches(heard(insideline::tests::sound_of(tones)));
}

const std::vector<int> turn{60, 62, 63, 67, 65, 58};

}  // namespace

TEST_CASE("a tongued line is heard note for note, and each note where it begins") {
  const auto tones = insideline::tests::line_of(turn, 0.25, 0.22);
  const HeardLine line = heard(insideline::tests::sound_of(tones));
  REQUIRE(pitches(line) == turn);
  for (std::size_t i = 0; i < tones.size(); ++i) {
    CAPTURE(i);
    CHECK(line.notes[i].onset_seconds == Approx(tones[i].onset_seconds).margin(0.03));
    CHECK(line.notes[i].end_seconds == Approx(tones[i].onset_seconds + tones[i].seconds).margin(0.05));
    CHECK(is_sure(line.notes[i]));
  }
}

TEST_CASE("a note that begins while the last one rings on is heard where it begins") {
  const auto tones = insideline::tests::line_of(turn, 0.3, 0.36);
  const HeardLine line = heard(insideline::tests::sound_of(tones));
  REQUIRE(pitches(line) == turn);
  for (std::size_t i = 0; i < tones.size(); ++i) {
    CAPTURE(i);
    CHECK(line.notes[i].onset_seconds == Approx(tones[i].onset_seconds).margin(0.04));
  }
}

TEST_CASE("what players do to notes leaves the notes") {
  auto tones = insideline::tests::line_of(turn, 0.3, 0.27);
  SECTION("vibrato") {
    for (Tone& tone : tones) tone.vibrato_cents = 40.0;
    CHECK(pitches_of(tones) == turn);
  }
  SECTION("scoops from a whole step below") {
    for (Tone& tone : tones) tone.scoop_semitones = 2.0;
    CHECK(pitches_of(tones) == turn);
  }
  SECTION("slurs") {
    for (std::size_t i = 0; i < tones.size(); ++i) tones[i].seconds = 0.31;
    for (std::size_t i = 1; i < tones.size(); ++i) tones[i].slurred = true;
    CHECK(pitches_of(tones) == turn);
  }
  SECTION("ghosted notes, a tenth as loud as the others") {
    for (std::size_t i = 1; i < tones.size(); i += 2) tones[i].level = 0.03;
    CHECK(pitches_of(tones) == turn);
  }
  SECTION("a room's noise, 26 decibels below") {
    auto sound = insideline::tests::sound_of(tones);
    insideline::tests::add_noise(sound, 0.01);
    CHECK(pitches(heard(sound)) == turn);
  }
}

TEST_CASE("a note that is tongued again is two notes, a long one is one") {
  auto tones = insideline::tests::line_of(std::vector{60, 60, 60, 60}, 0.25, 0.235);
  CHECK(pitches_of(tones) == std::vector{60, 60, 60, 60});
  CHECK(pitches_of({Tone{.onset_seconds = 0.5, .seconds = 3.0, .midi = 60.0, .vibrato_cents = 25.0}}) ==
        std::vector{60});
}

TEST_CASE("a recording that is not tuned to 440 is heard in its own tuning") {
  for (const double cents : {-40.0, -25.0, 30.0}) {
    auto tones = insideline::tests::line_of(turn, 0.25, 0.22);
    for (Tone& tone : tones) tone.midi += cents / 100.0;
    const HeardLine line = heard(insideline::tests::sound_of(tones));
    CAPTURE(cents);
    CHECK(pitches(line) == turn);
    CHECK(line.tuning_cents == Approx(cents).margin(4.0));
  }
}

TEST_CASE("sixteenths at a quarter note of 180 are heard") {
  std::vector<int> scale;
  for (int i = 0; i < 24; ++i) scale.push_back(60 + (i % 12));
  CHECK(pitches_of(insideline::tests::line_of(scale, 0.0833, 0.078)) == scale);
}

TEST_CASE("a later start makes all notes later and changes nothing else") {
  auto tones = insideline::tests::line_of(turn, 0.25, 0.22);
  const HeardLine before = heard(insideline::tests::sound_of(tones));
  for (Tone& tone : tones) tone.onset_seconds += 1.7;
  const HeardLine after = heard(insideline::tests::sound_of(tones));
  REQUIRE(pitches(after) == pitches(before));
  for (std::size_t i = 0; i < turn.size(); ++i)
    CHECK(after.notes[i].onset_seconds - before.notes[i].onset_seconds == Approx(1.7).margin(0.012));
}

TEST_CASE("the range bounds what is listened for") {
  const std::string bytes = insideline::tests::wav_of(
      insideline::tests::sound_of(insideline::tests::line_of(std::vector{48, 60, 50, 62}, 0.3, 0.27)));
  insideline::io::SoundFile file(bytes, "take.wav");
  for (const HeardNote& note : heard_line(file, {58, 80}).notes) CHECK(note.midi >= 58);
}

TEST_CASE("four clicks before the line are a count-in, and no notes") {
  auto tones = insideline::tests::line_of(turn, 0.25, 0.22);
  for (Tone& tone : tones) tone.onset_seconds += 2.5;
  auto sound = insideline::tests::sound_of(tones);
  insideline::tests::add_clicks(sound, std::vector{1.0, 1.5, 2.0, 2.5});
  const HeardLine line = heard(sound);
  CHECK(pitches(line) == turn);
  REQUIRE(line.clicks.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) CHECK(line.clicks[i] == Approx(1.0 + 0.5 * static_cast<double>(i)).margin(0.015));
}

TEST_CASE("short notes are no count-in") {
  const HeardLine line = heard(insideline::tests::sound_of(insideline::tests::line_of(turn, 0.5, 0.2)));
  CHECK(line.clicks.empty());
  CHECK(pitches(line) == turn);
}
