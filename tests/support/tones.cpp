#include "tests/support/tones.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <numbers>

namespace insideline::tests {
namespace {

constexpr double turn = 2.0 * std::numbers::pi;

double loudness(const Tone& tone, double now) {
  constexpr double release = 0.02;
  const double up = tone.slurred ? 1.0 : std::min(1.0, now / tone.attack_seconds);
  return tone.level * up * std::clamp((tone.seconds - now) / release, 0.0, 1.0);
}

void add_tone(std::vector<float>& sound, const Tone& tone) {
  const auto begin = static_cast<std::size_t>(tone.onset_seconds * tone_rate);
  const auto length = static_cast<std::size_t>(tone.seconds * tone_rate);
  double phase = 0.0;
  for (std::size_t i = 0; i < length && begin + i < sound.size(); ++i) {
    const double now = static_cast<double>(i) / tone_rate;
    constexpr double scoop_seconds = 0.08;
    constexpr double vibrato_hz = 5.5;
    const double below = tone.scoop_semitones * std::max(0.0, 1.0 - now / scoop_seconds);
    const double midi = tone.midi - below + tone.vibrato_cents / 100.0 * std::sin(turn * vibrato_hz * now);
    const double hz = 440.0 * std::exp2((midi - 69.0) / 12.0);
    phase += turn * hz / tone_rate;
    double sample = 0.0;
    for (int partial = 1; partial <= tone.partials && hz * partial < 10'000.0; ++partial)
      sample += std::sin(phase * partial) / (partial * 1.8);
    sound[begin + i] += static_cast<float>(sample * loudness(tone, now));
  }
}

/// Between -1 and 1, the same on every machine.
class Noise {
 public:
  double next() {
    state_ = state_ * 1'664'525U + 1'013'904'223U;
    return static_cast<double>(state_ >> 8U) / 8'388'608.0 - 1.0;
  }

 private:
  std::uint32_t state_ = 1;
};

void put(std::string& bytes, std::uint32_t value, int count) {
  for (int i = 0; i < count; ++i) bytes += static_cast<char>((value >> (8 * i)) & 0xFFU);
}

}  // namespace

std::vector<float> sound_of(std::span<const Tone> tones) {
  double end = 0.0;
  for (const Tone& tone : tones) end = std::max(end, tone.onset_seconds + tone.seconds);
  std::vector<float> sound(static_cast<std::size_t>((end + 0.5) * tone_rate));
  for (const Tone& tone : tones) add_tone(sound, tone);
  return sound;
}

std::vector<Tone> line_of(std::span<const int> midi, double apart, double seconds) {
  std::vector<Tone> tones;
  for (std::size_t i = 0; i < midi.size(); ++i)
    tones.push_back({.onset_seconds = 0.5 + apart * static_cast<double>(i),
                     .seconds = seconds,
                     .midi = static_cast<double>(midi[i])});
  return tones;
}

void add_clicks(std::vector<float>& sound, std::span<const double> seconds) {
  Noise noise;
  for (const double second : seconds)
    for (std::size_t i = 0; i < tone_rate / 120; ++i) {
      const std::size_t at = static_cast<std::size_t>(second * tone_rate) + i;
      if (at < sound.size()) sound[at] += static_cast<float>(0.5 * noise.next());
    }
}

void add_noise(std::vector<float>& sound, double level) {
  Noise noise;
  const double root_three = std::sqrt(3.0);
  for (float& sample : sound) sample += static_cast<float>(level * root_three * noise.next());
}

std::string wav_of(std::span<const float> samples, int rate, int channels, WavKind kind) {
  const bool floats = kind == WavKind::floats;
  const auto width = static_cast<std::uint32_t>(floats ? 4 : 2);
  const auto frame = width * static_cast<std::uint32_t>(channels);
  const auto size = static_cast<std::uint32_t>(samples.size()) * width;
  std::string bytes = "RIFF";
  put(bytes, 36 + size, 4);
  bytes += "WAVEfmt ";
  put(bytes, 16, 4);
  put(bytes, floats ? 3 : 1, 2);
  put(bytes, static_cast<std::uint32_t>(channels), 2);
  put(bytes, static_cast<std::uint32_t>(rate), 4);
  put(bytes, static_cast<std::uint32_t>(rate) * frame, 4);
  put(bytes, frame, 2);
  put(bytes, width * 8, 2);
  bytes += "data";
  put(bytes, size, 4);
  for (const float sample : samples) {
    std::uint32_t value = 0;
    if (floats) {
      std::memcpy(&value, &sample, sizeof value);
    } else {
      const float clipped = std::clamp(sample, -1.0F, 1.0F);
      value = static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(clipped * 32'767.0F)));
    }
    put(bytes, value, static_cast<int>(width));
  }
  return bytes;
}

}  // namespace insideline::tests
