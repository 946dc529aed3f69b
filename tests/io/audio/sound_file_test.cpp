#include "io/audio/sound_file.hpp"
#include "io/audio/mono.hpp"
#include "io/audio/recording.hpp"
#include "io/read_result.hpp"
#include "tests/support/own_folder.hpp"
#include "tests/support/tones.hpp"

#include <catch2/catch.hpp>

#include <sys/stat.h>

#include <cmath>
#include <limits>

using Catch::Matchers::Contains;
using insideline::io::parse_recording;
using insideline::io::ReadError;
using insideline::tests::wav_of;
using insideline::tests::WavKind;

namespace {

std::string message_for(const std::string& bytes) {
  try {
    parse_recording(bytes, "take.wav");
  } catch (const ReadError& error) {
    return error.what();
  }
  return {};
}

const std::vector<float>& line() {
  static const std::vector<float> sound =
      insideline::tests::sound_of(insideline::tests::line_of(std::vector{60, 64, 67, 72}, 0.25, 0.22));
  return sound;
}

/// `line()` at another rate, by taking the nearest sample, so many channels.
std::string line_at(int rate, int channels) {
  std::vector<float> samples;
  const auto frames =
      static_cast<std::size_t>(static_cast<double>(line().size()) * rate / insideline::tests::tone_rate);
  for (std::size_t i = 0; i < frames; ++i) {
    const double at = static_cast<double>(i) * insideline::tests::tone_rate / rate;
    const auto left = std::min(static_cast<std::size_t>(at), line().size() - 2);
    const auto part = static_cast<float>(at - std::floor(at));
    for (int channel = 0; channel < channels; ++channel)
      samples.push_back(line()[left] * (1.0F - part) + line()[left + 1] * part);
  }
  return wav_of(samples, rate, channels);
}

}  // namespace

TEST_CASE("any rate from a telephone's to a studio's, and any number of channels, gives the same notes") {
  for (const auto& [rate, channels] : {std::pair{8'000, 1},
                                       {11'025, 1},
                                       {16'000, 2},
                                       {44'100, 2},
                                       {48'000, 1},
                                       {96'000, 2},
                                       {192'000, 1},
                                       {44'100, 6}}) {
    CAPTURE(rate, channels);
    const auto recording = parse_recording(line_at(rate, channels), "take.wav");
    std::vector<int> midi;
    for (const auto& note : recording.line.notes) midi.push_back(note.midi);
    CHECK(midi == std::vector{60, 64, 67, 72});
  }
}

TEST_CASE("what cannot be listened to is refused with what to do") {
  const std::string good = wav_of(line());
  CHECK_THAT(message_for(""), Contains("take.wav") && Contains("empty"));
  CHECK_THAT(message_for("Dear diary, today I practised."), Contains("no recording") && Contains("WAV, FLAC or Ogg"));
  CHECK_THAT(message_for("ID3 and so on, an MP3 file"), Contains("kind that is not read"));
  CHECK_THAT(message_for(std::string("\0\0\0\x18", 4) + "ftypM4A "), Contains("kind that is not read"));
  CHECK_THAT(message_for(good.substr(0, 20)), Contains("cannot be opened"));
  CHECK_THAT(message_for(good.substr(0, good.size() / 2)), Contains("breaks off"));
  CHECK_THAT(message_for(wav_of({}, 44'100)), Contains("no sound in it"));
  CHECK_THAT(message_for(wav_of(line(), 4'000)), Contains("4000 samples a second"));
  CHECK_THAT(message_for(wav_of(line(), 384'000)), Contains("384000 samples a second"));
}

TEST_CASE("samples that are no numbers are refused with their place") {
  std::vector<float> sound = line();
  sound[11'025] = std::numeric_limits<float>::quiet_NaN();
  CHECK_THAT(message_for(wav_of(sound, insideline::tests::tone_rate, 1, WavKind::floats)),
             Contains("0.500 s is no number"));
  sound[11'025] = std::numeric_limits<float>::infinity();
  CHECK_THAT(message_for(wav_of(sound, insideline::tests::tone_rate, 1, WavKind::floats)), Contains("no number"));
}

TEST_CASE("a WAV file of one bit a sample is refused") {
  std::string bytes = wav_of(line());
  bytes[34] = 1;
  CHECK_THAT(message_for(bytes), Contains("1-bit samples"));
}

TEST_CASE("a recording that cannot be trusted says why and what to do") {
  SECTION("silent") {
    CHECK_THAT(message_for(wav_of(std::vector<float>(44'100))), Contains("silent") && Contains("louder"));
  }
  SECTION("noise") {
    std::vector<float> sound(66'150);
    insideline::tests::add_noise(sound, 0.1);
    CHECK_THAT(message_for(wav_of(sound)), Contains("one clear pitch") && Contains("headphones"));
  }
  SECTION("chords under the line") {
    auto tones = insideline::tests::line_of(std::vector{60, 64, 67, 72}, 0.4, 0.38);
    for (const double midi : {53.2, 57.9, 62.4, 64.7})
      tones.push_back({.onset_seconds = 0.5, .seconds = 1.6, .midi = midi, .level = 0.3});
    CHECK_THAT(message_for(wav_of(insideline::tests::sound_of(tones))), Contains("several notes at a time"));
  }
}

TEST_CASE("a recording that is cut off at full scale is told") {
  std::vector<float> sound = line();
  for (float& sample : sound) sample *= 12.0F;
  const auto recording = parse_recording(wav_of(sound), "take.wav");
  REQUIRE(recording.warnings.size() == 1);
  CHECK_THAT(recording.warnings.front().message, Contains("cut off at full scale") && Contains("further away"));
  CHECK(parse_recording(wav_of(line()), "take.wav").warnings.empty());
}

TEST_CASE("the sound comes a block at a time, whatever its length") {
  const std::string bytes = wav_of(std::vector<float>(400'000, 0.25F), 44'100);
  insideline::io::SoundFile file(bytes, "take.wav");
  insideline::io::MonoSound sound(file);
  std::size_t samples = 0;
  std::size_t largest = 0;
  for (auto block = sound.next_block(); !block.empty(); block = sound.next_block()) {
    samples += block.size();
    largest = std::max(largest, block.size());
  }
  CHECK(sound.rate() == Approx(22'050.0));
  CHECK(samples == 200'000);
  CHECK(largest <= 4'096);
}

TEST_CASE("a pipe is no recording, whatever its name, and nobody waits for it") {
  const insideline::tests::OwnFolder folder;
  for (const char* name : {"take", "take.wav"}) {
    const auto pipe = folder.path() / name;
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK(insideline::io::is_recording(pipe) == (pipe.extension() == ".wav"));
    CHECK_THROWS_WITH(insideline::io::SoundFile(pipe), Contains("this is not an ordinary file"));
  }
}
