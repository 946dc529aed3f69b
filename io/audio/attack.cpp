#include "io/audio/attack.hpp"

#include <Eigen/Core>
#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

namespace insideline::io {
namespace {

constexpr double window_seconds = 0.0232;  // 512 samples at 22,050 a second
// Partials weaker than this against the loudest so far are noise of the room.
constexpr float floor_below_peak_db = 60.0F;
constexpr float quietest_db = -100.0F;
constexpr std::size_t moments_back = 3;  // moments that the rise is taken over

float decibels(float power) { return 10.0F * std::log10(std::max(power, 1e-12F)); }

}  // namespace

struct AttackMeter::Work {
  std::vector<float> window;
  std::vector<float> framed;
  std::vector<std::complex<float>> spectrum;
  std::array<std::vector<float>, moments_back> before{};  ///< levels by bin, already the maximum over three bins
  std::vector<float> now;
  std::size_t turn = 0;
  float loudest_db = quietest_db;
  Eigen::FFT<float> transform{};
};

AttackMeter::AttackMeter(double rate) : work_(std::make_unique<Work>()) {
  std::size_t size = 128;
  while (static_cast<double>(size * 2) < window_seconds * rate * 1.1) size *= 2;
  size = std::max<std::size_t>(size, 128);
  for (std::size_t i = 0; i < size; ++i)
    work_->window.push_back(static_cast<float>(
        0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(size))));
  work_->framed.resize(size);
  work_->now.resize(size / 2 + 1);
  for (std::vector<float>& levels : work_->before) levels.assign(size / 2 + 1, 1e9F);
  work_->transform.SetFlag(Eigen::FFT<float>::HalfSpectrum);
}

AttackMeter::~AttackMeter() = default;

std::size_t AttackMeter::window() const { return work_->window.size(); }

AttackSigns AttackMeter::next(std::span<const float> samples) {
  Work& work = *work_;
  float energy = 0.0F;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    work.framed[i] = samples[i] * work.window[i];
    energy += work.framed[i] * work.framed[i];
  }
  work.transform.fwd(work.spectrum, work.framed);
  const auto size = static_cast<float>(samples.size());
  for (std::size_t bin = 0; bin < work.now.size(); ++bin)
    work.now[bin] = decibels(std::norm(work.spectrum[bin]) * 16.0F / (size * size));
  work.loudest_db = std::max(work.loudest_db, *std::ranges::max_element(work.now));
  const float floor = std::max(work.loudest_db - floor_below_peak_db, quietest_db);
  std::vector<float>& oldest = work.before.at(work.turn);
  float rise = 0.0F;
  for (std::size_t bin = 1; bin < work.now.size(); ++bin)
    rise += std::max(0.0F, std::max(work.now[bin], floor) - std::max(oldest[bin], floor));
  for (std::size_t bin = 0; bin < work.now.size(); ++bin) {
    const float left = work.now[bin == 0 ? 0 : bin - 1];
    const float right = work.now[std::min(bin + 1, work.now.size() - 1)];
    oldest[bin] = std::max({left, work.now[bin], right});
  }
  work.turn = (work.turn + 1) % moments_back;
  // The mean square of a Hann window is 3/8.
  return {decibels(energy / (size * 0.375F)), rise / (10.0F * static_cast<float>(work.now.size()))};
}

}  // namespace insideline::io
