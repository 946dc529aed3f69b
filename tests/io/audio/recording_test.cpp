#include "io/audio/recording.hpp"
#include "analyzer/takes/take_alignment.hpp"
#include "io/read_solo.hpp"
#include "tests/support/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using insideline::Beats;
using insideline::Struck;
using insideline::io::ListeningRange;
using insideline::io::parse_recording;
using insideline::io::parse_solo;
using insideline::io::Recording;
using insideline::io::RecordingOptions;
using insideline::tests::Tone;

namespace {

const std::vector<int> sheet{60, 62, 64, 65, 67, 69, 71, 72, 71, 69, 67, 65, 64, 62, 60, 55};

std::string eighths_after_clicks(double beat) {
  std::vector<Tone> tones = insideline::tests::line_of(sheet, beat / 2, beat / 2 - 0.02);
  for (Tone& tone : tones) tone.onset_seconds += 0.3 + 4 * beat;
  auto sound = insideline::tests::sound_of(tones);
  insideline::tests::add_clicks(sound, std::vector{0.8, 0.8 + beat, 0.8 + 2 * beat, 0.8 + 3 * beat});
  return insideline::tests::wav_of(sound);
}

std::vector<int> heard_over_sheet(const std::vector<int>& played) {
  const auto [lowest, highest] = std::ranges::minmax_element(sheet);
  const std::string bytes =
      insideline::tests::wav_of(insideline::tests::sound_of(insideline::tests::line_of(played, 0.25, 0.23)));
  RecordingOptions options;
  options.range = ListeningRange{*lowest - 12, *highest + 12};
  std::vector<int> midi;
  for (const auto& note : parse_recording(bytes, "take.wav", options).line.notes) midi.push_back(note.midi);
  return midi;
}

}  // namespace

TEST_CASE("a count-in gives the tempo, and the line begins with bar 1 behind it") {
  for (const double bpm : {72.0, 120.0, 160.0}) {
    const Recording recording = parse_recording(eighths_after_clicks(60.0 / bpm), "take.wav");
    CAPTURE(bpm);
    REQUIRE(recording.has_beats);
    const auto read = parse_solo(recording.midi, "take.wav");
    REQUIRE(read.solo.notes.size() == sheet.size());
    CHECK(read.solo.tempo_bpm.value() == Approx(bpm).margin(1.0));
    for (std::size_t i = 0; i < sheet.size(); ++i) {
      CAPTURE(i);
      CHECK(midi_number(read.solo.notes[i].pitch) == sheet[i]);
      CHECK(read.solo.notes[i].onset == Beats(static_cast<int>(i), 2));
    }
  }
}

TEST_CASE("without a count-in the tempo may be said, and the notes then find the beat") {
  const auto tones = insideline::tests::line_of(sheet, 0.25, 0.23);
  const std::string bytes = insideline::tests::wav_of(insideline::tests::sound_of(tones));
  RecordingOptions options;
  CHECK(!parse_recording(bytes, "take.wav", options).has_beats);
  options.tempo_bpm = 120.0;
  const Recording recording = parse_recording(bytes, "take.wav", options);
  CHECK(recording.has_beats);
  const auto read = parse_solo(recording.midi, "take.wav");
  REQUIRE(read.solo.notes.size() == sheet.size());
  for (std::size_t i = 1; i < sheet.size(); ++i)
    CHECK(read.solo.notes[i].onset - read.solo.notes[i - 1].onset == Beats(1, 2));
}

TEST_CASE("tapped beats count from the start of the recording") {
  RecordingOptions options;
  options.beats = insideline::io::RecordingBeats::known_elsewhere;
  const Recording recording = parse_recording(eighths_after_clicks(0.5), "take.wav", options);
  insideline::io::ReadOptions reading;
  for (int beat = 0; beat < 14; ++beat) reading.beats.push_back({0.8 + 0.5 * beat, 1 + beat % 4});
  const auto read = parse_solo(recording.midi, "take.wav", reading);
  REQUIRE(read.solo.notes.size() == sheet.size());
  CHECK(read.solo.notes.front().place.position == Beats(0));
  CHECK(read.solo.notes[3].place.position == Beats(3, 2));
}

TEST_CASE("a count-in in another tempo than the one that is said is told") {
  RecordingOptions options;
  options.tempo_bpm = 90.0;
  const Recording recording = parse_recording(eighths_after_clicks(0.5), "take.wav", options);
  REQUIRE(recording.warnings.size() == 1);
  CHECK_THAT(recording.warnings.front().message, Catch::Contains("quarter note = 120, not 90"));
}

TEST_CASE("the sheet only bounds what is listened for: each kind of slip stays a slip") {
  auto played = sheet;
  SECTION("nothing wrong") { CHECK(heard_over_sheet(played) == sheet); }
  SECTION("a wrong note, a half step off") {
    played[5] = 68;
    CHECK(heard_over_sheet(played) == played);
  }
  SECTION("an octave slip") {
    played[6] = 59;
    CHECK(heard_over_sheet(played) == played);
  }
  SECTION("a note missing") {
    played.erase(played.begin() + 4);
    CHECK(heard_over_sheet(played) == played);
  }
  SECTION("a note added") {
    played.insert(played.begin() + 4, 66);
    CHECK(heard_over_sheet(played) == played);
  }
  SECTION("a passage begun again") {
    played.insert(played.begin() + 8, {65, 67, 69, 71});
    CHECK(heard_over_sheet(played) == played);
  }
  SECTION("every note wrong") {
    for (int& midi : played) midi += 1;
    CHECK(heard_over_sheet(played) == played);
  }
  const auto laid = insideline::align_take(sheet, heard_over_sheet(played));
  const auto wrong =
      std::ranges::count_if(laid.attempts, [](const auto& each) { return each.struck != Struck::right; });
  CHECK((wrong + static_cast<long>(laid.added.size() + laid.restarts.size()) > 0) == (played != sheet));
}

TEST_CASE("the noisier the recording, the less sure its notes") {
  const auto mean_sureness = [](double noise) {
    auto sound = insideline::tests::sound_of(insideline::tests::line_of(sheet, 0.25, 0.23));
    insideline::tests::add_noise(sound, noise);
    const Recording recording = parse_recording(insideline::tests::wav_of(sound), "take.wav");
    double sum = 0.0;
    for (const auto& note : recording.line.notes) sum += static_cast<double>(note.sure);
    return sum / static_cast<double>(recording.line.notes.size());
  };
  const double clean = mean_sureness(0.0);
  const double noisy = mean_sureness(0.03);
  CHECK(clean > 0.9);
  CHECK(noisy < clean);
}
