#include "tests/io/audio/coded_sound.hpp"
#include "io/audio/recording.hpp"
#include "io/audio/sound_file.hpp"
#include "io/read_result.hpp"
#include "tests/support/own_folder.hpp"
#include "tests/support/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

using Catch::Matchers::Contains;
using insideline::io::ReadError;
using insideline::tests::coded;
using insideline::tests::SoundCoding;
using insideline::tests::tone_rate;

namespace {

const std::vector<int> chord{60, 64, 67, 72};

std::vector<float> sound_of_chord() {
  return insideline::tests::sound_of(insideline::tests::line_of(chord, 0.25, 0.22));
}

/// At 48,000 samples a second, the only rate of these that all formats know.
std::vector<float> at_studio_rate(const std::vector<float>& sound) {
  constexpr double step = tone_rate / 48'000.0;
  std::vector<float> samples;
  for (double at = 0.0; at + 1.0 < static_cast<double>(sound.size()); at += step) {
    const auto left = static_cast<std::size_t>(at);
    const auto part = static_cast<float>(at - static_cast<double>(left));
    samples.push_back(sound[left] * (1.0F - part) + sound[left + 1] * part);
  }
  return samples;
}

/// Silence on one side of two.
std::vector<float> on_one_side(const std::vector<float>& sound, bool left) {
  std::vector<float> samples;
  for (const float sample : sound) {
    samples.push_back(left ? sample : 0.0F);
    samples.push_back(left ? 0.0F : sample);
  }
  return samples;
}

std::vector<int> heard_pitches(const std::string& bytes, const std::string& name = "take") {
  std::vector<int> midi;
  for (const auto& note : insideline::io::parse_recording(bytes, name).line.notes) midi.push_back(note.midi);
  return midi;
}

std::string refusal_of(const std::string& bytes) {
  try {
    insideline::io::parse_recording(bytes, "take");
  } catch (const ReadError& error) {
    return error.what();
  }
  return {};
}

/// What the head of a FLAC file says of its length: the last four bits of one byte and four more.
std::string with_promised_samples(std::string flac, std::uint64_t samples) {
  constexpr std::size_t length_at = 21;
  flac[length_at] = static_cast<char>((static_cast<unsigned char>(flac[length_at]) & 0xF0U) | (samples >> 32U));
  for (std::size_t i = 0; i < 4; ++i) flac[length_at + 1 + i] = static_cast<char>((samples >> (24 - 8 * i)) & 0xFFU);
  return flac;
}

}  // namespace

TEST_CASE("every way of keeping a sound gives the same notes") {
  const std::vector<float> sound = at_studio_rate(sound_of_chord());
  for (const SoundCoding coding : {SoundCoding::flac, SoundCoding::vorbis, SoundCoding::opus, SoundCoding::wav_8_bit,
                                   SoundCoding::wav_24_bit, SoundCoding::wav_floats}) {
    CAPTURE(static_cast<int>(coding));
    CHECK(heard_pitches(coded(sound, 48'000, 1, coding)) == chord);
  }
}

TEST_CASE("a line on one of two channels is heard, and told where that one is cut off at full scale") {
  std::vector<float> sound = sound_of_chord();
  for (const bool left : {true, false})
    CHECK(heard_pitches(coded(on_one_side(sound, left), tone_rate, 2, SoundCoding::wav_24_bit)) == chord);
  for (float& sample : sound) sample = std::clamp(12.0F * sample, -1.0F, 1.0F);
  for (const bool left : {true, false}) {
    CAPTURE(left);
    const auto recording = insideline::io::parse_recording(
        coded(on_one_side(sound, left), tone_rate, 2, SoundCoding::wav_24_bit), "take.wav");
    REQUIRE(recording.warnings.size() == 1);
    CHECK_THAT(recording.warnings.front().message, Contains("cut off at full scale"));
  }
}

TEST_CASE("an Ogg file that breaks off anywhere is refused, from memory and from a file") {
  const insideline::tests::OwnFolder folder;
  for (const SoundCoding coding : {SoundCoding::vorbis, SoundCoding::opus}) {
    const std::string whole = coded(at_studio_rate(sound_of_chord()), 48'000, 1, coding);
    for (std::size_t tenth = 1; tenth <= 9; ++tenth) {
      const std::string cut = whole.substr(0, whole.size() * tenth / 10);
      CAPTURE(tenth);
      CHECK_THAT(refusal_of(cut), Contains("breaks off") && Contains("copy it again"));
      CHECK_THROWS_WITH(insideline::io::SoundFile(folder.write("take.ogg", cut)), Contains("breaks off"));
    }
    for (std::size_t missing = 1; missing < 60; ++missing)
      CHECK_THAT(refusal_of(whole.substr(0, whole.size() - missing)), Contains("breaks off"));
    CHECK(heard_pitches(whole + std::string(300, '\0')) == chord);  // some programs fill up the last block
    CHECK(insideline::io::SoundFile(folder.write("take.ogg", whole)).channels() == 1);
  }
}

TEST_CASE("a FLAC file that breaks off is refused, one that does not say how long it is is heard") {
  const std::string whole = coded(sound_of_chord(), tone_rate, 1, SoundCoding::flac);
  for (std::size_t tenth = 1; tenth <= 9; ++tenth) {
    CAPTURE(tenth);
    CHECK_THAT(refusal_of(whole.substr(0, whole.size() * tenth / 10)),
               Contains("breaks off after") || Contains("may have broken off"));
  }
  CHECK_THAT(refusal_of(whole.substr(0, 30)), Contains("cannot be opened"));
  CHECK(heard_pitches(with_promised_samples(whole, 0)) == chord);
}

TEST_CASE("a recording that says it is longer than an hour is refused before anybody listens") {
  const std::string flac = coded(sound_of_chord(), tone_rate, 1, SoundCoding::flac);
  constexpr std::uint64_t hour = std::uint64_t{3'600} * tone_rate;
  CHECK_THROWS_WITH(insideline::io::SoundFile(with_promised_samples(flac, hour + 1), "take.flac"),
                    Contains("longer than an hour"));
  CHECK(insideline::io::SoundFile(with_promised_samples(flac, hour), "take.flac").frames() == hour);
}
