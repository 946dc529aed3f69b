#include "io/audio/pitch_candidates.hpp"
#include "tests/support/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

using insideline::io::PitchCandidate;
using insideline::io::PitchFinder;
using insideline::tests::Tone;

namespace {

PitchCandidate likeliest(const std::vector<float>& sound, double seconds) {
  PitchFinder finder(insideline::tests::tone_rate, 40.0, 2'200.0);
  const auto begin = static_cast<std::ptrdiff_t>(seconds * insideline::tests::tone_rate);
  const std::vector<float> samples(sound.begin() + begin,
                                   sound.begin() + begin + static_cast<std::ptrdiff_t>(finder.window()));
  const auto candidates = finder.candidates(samples);
  REQUIRE(!candidates.empty());
  return *std::ranges::max_element(candidates, {}, &PitchCandidate::probability);
}

/// Partials as their number and strength; half a partial is a sound below the pitch.
std::vector<float> of_partials(double midi, const std::vector<std::pair<double, double>>& partials) {
  std::vector<float> sound(static_cast<std::size_t>(0.4 * insideline::tests::tone_rate));
  const double hz = 440.0 * std::exp2((midi - 69.0) / 12.0);
  for (std::size_t i = 0; i < sound.size(); ++i)
    for (const auto& [number, strength] : partials)
      sound[i] += static_cast<float>(
          0.3 * strength *
          std::sin(2.0 * std::numbers::pi * hz * number * static_cast<double>(i) / insideline::tests::tone_rate));
  return sound;
}

}  // namespace

TEST_CASE(
    "every semitone from the low E of a bass to the high C of a flute is found within four cents, and within ten "
    "above") {
  for (int midi = 28; midi <= 96; ++midi) {
    const Tone tone{.seconds = 0.4, .midi = midi + 0.13};
    const PitchCandidate found = likeliest(insideline::tests::sound_of(std::vector{tone}), 0.1);
    CAPTURE(midi, found.probability);
    constexpr int d6 = 86;
    CHECK(found.midi == Approx(midi + 0.13).margin(midi < d6 ? 0.04 : 0.10));
    CHECK(found.probability > (midi < d6 ? 0.9F : 0.6F));
  }
}

TEST_CASE("a note whose second partial rules, as an oboe's, is heard in its own octave") {
  const auto sound = of_partials(74, {{1, 0.12}, {2, 1.0}, {3, 0.1}, {4, 0.3}, {5, 0.08}, {6, 0.1}});
  CHECK(likeliest(sound, 0.1).midi == Approx(74).margin(0.04));
}

TEST_CASE("a low thump under a plucked note does not take it an octave down") {
  const auto sound = of_partials(46, {{0.5, 0.14}, {1, 1.0}, {2, 0.4}, {3, 0.15}, {4, 0.1}});
  CHECK(likeliest(sound, 0.1).midi == Approx(46).margin(0.1));
}

TEST_CASE("noise and silence have hardly a pitch") {
  std::vector<float> sound(22'050);
  PitchFinder finder(insideline::tests::tone_rate, 60.0, 2'000.0);
  CHECK(
      finder.candidates(std::vector<float>(sound.begin(), sound.begin() + static_cast<std::ptrdiff_t>(finder.window())))
          .empty());
  insideline::tests::add_noise(sound, 0.2);
  float sum = 0.0F;
  for (const PitchCandidate& each : finder.candidates(
           std::vector<float>(sound.begin(), sound.begin() + static_cast<std::ptrdiff_t>(finder.window()))))
    sum += each.probability;
  CHECK(sum < 0.1F);
}
