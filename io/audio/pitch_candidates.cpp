#include "io/audio/pitch_candidates.hpp"

#include <Eigen/Core>
#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstddef>

namespace insideline::io {
// Not local: a type that the header names holds it.
struct Dip {
  double lag = 0.0;
  float depth = 1.0F;
  float probability = 0.0F;
};

namespace {

// Mauch and Dixon, section 2.1: a hundred thresholds from 0.01 to 1; their prior is a beta distribution, of which we
// take the one with mean 0.1 (their figure 1), alpha 2 and beta 18.
constexpr std::size_t threshold_count = 100;
constexpr double prior_alpha = 2.0;
constexpr double prior_beta = 18.0;
// Their weight of the deepest dip where none is below the threshold.
constexpr float no_dip_weight = 0.01F;
// De Cheveigne and Kawahara, section V: the window needs about the longest period; theirs was 25 ms.
constexpr double shortest_window_seconds = 0.020;
constexpr double periods_in_window = 1.25;  // tuned by rendered_instruments (tests/io/audio)

std::array<float, threshold_count> threshold_prior() {
  std::array<float, threshold_count> weights{};
  double sum = 0.0;
  for (std::size_t i = 0; i < threshold_count; ++i) {
    const double x = (static_cast<double>(i) + 0.5) / static_cast<double>(threshold_count);
    const double density = std::pow(x, prior_alpha - 1.0) * std::pow(1.0 - x, prior_beta - 1.0);
    weights.at(i) = static_cast<float>(density);
    sum += density;
  }
  for (float& weight : weights) weight = static_cast<float>(weight / sum);
  return weights;
}

std::size_t power_of_two_from(std::size_t least) {
  std::size_t size = 1;
  while (size < least) size *= 2;
  return size;
}

/// De Cheveigne and Kawahara, section II.E: the bottom of a parabola through three lags.
Dip bottom_of(std::span<const float> difference, std::size_t lag) {
  const double before = difference[lag - 1];
  const double here = difference[lag];
  const double after = difference[lag + 1];
  const double bend = before - 2.0 * here + after;
  const double shift = bend > 0.0 ? std::clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0.0;
  const double depth = here - 0.25 * (before - after) * shift;
  return {static_cast<double>(lag) + shift, static_cast<float>(std::max(0.0, depth)), 0.0F};
}

}  // namespace

struct PitchFinder::Work {
  double rate = 0.0;
  std::size_t shortest_lag = 2;
  std::size_t longest_lag = 3;
  std::size_t summed = 0;  ///< samples in each sum of squares
  std::array<float, threshold_count> prior = threshold_prior();
  Eigen::FFT<float> transform{};
  std::vector<float> first;
  std::vector<float> all;
  std::vector<float> product;
  std::vector<std::complex<float>> first_spectrum;
  std::vector<std::complex<float>> all_spectrum;
  std::vector<float> difference;  ///< by lag, normalised: their equation 8
  std::vector<Dip> dips;
  std::vector<PitchCandidate> found;
};

PitchFinder::PitchFinder(double rate, double lowest_hz, double highest_hz) : work_(std::make_unique<Work>()) {
  Work& work = *work_;
  work.rate = rate;
  work.shortest_lag = std::max<std::size_t>(2, static_cast<std::size_t>(rate / highest_hz));
  work.longest_lag = std::max(work.shortest_lag + 2, static_cast<std::size_t>(rate / lowest_hz) + 2);
  const double window =
      std::max(periods_in_window * static_cast<double>(work.longest_lag), shortest_window_seconds * rate);
  work.summed = static_cast<std::size_t>(window);
  const std::size_t size = power_of_two_from(work.summed + work.longest_lag + 1);
  work.first.resize(size);
  work.all.resize(size);
  work.difference.resize(work.longest_lag + 1);
  work.transform.SetFlag(Eigen::FFT<float>::HalfSpectrum);
}

PitchFinder::~PitchFinder() = default;

std::size_t PitchFinder::window() const { return work_->summed + work_->longest_lag + 1; }

/// Equations 6 to 8: the squared difference to the sound a lag later, as energies less twice the correlation, over its
/// mean at all shorter lags.
void PitchFinder::find_difference(std::span<const float> samples) {
  Work& work = *work_;
  std::fill(work.first.begin(), work.first.end(), 0.0F);
  std::fill(work.all.begin(), work.all.end(), 0.0F);
  std::copy_n(samples.begin(), work.summed, work.first.begin());
  std::ranges::copy(samples, work.all.begin());
  work.transform.fwd(work.first_spectrum, work.first);
  work.transform.fwd(work.all_spectrum, work.all);
  for (std::size_t i = 0; i < work.all_spectrum.size(); ++i) work.all_spectrum[i] *= std::conj(work.first_spectrum[i]);
  work.transform.inv(work.product, work.all_spectrum, static_cast<Eigen::Index>(work.all.size()));
  double energy = 0.0;
  for (std::size_t i = 0; i < work.summed; ++i) energy += static_cast<double>(samples[i]) * samples[i];
  double later = energy;
  double sum = 0.0;
  work.difference[0] = 1.0F;
  for (std::size_t lag = 1; lag <= work.longest_lag; ++lag) {
    const double leaves = samples[lag - 1];
    const double enters = samples[lag - 1 + work.summed];
    later += enters * enters - leaves * leaves;
    const double squared = std::max(0.0, energy + later - 2.0 * static_cast<double>(work.product[lag]));
    sum += squared;
    work.difference[lag] = sum > 0.0 ? static_cast<float>(squared * static_cast<double>(lag) / sum) : 1.0F;
  }
}

/// Each threshold takes the first dip below it (their section 2.1).
void PitchFinder::weigh_dips() {
  Work& work = *work_;
  work.dips.clear();
  const std::vector<float>& depth = work.difference;
  for (std::size_t lag = work.shortest_lag; lag < work.longest_lag; ++lag)
    if (depth[lag] < 1.0F && depth[lag] <= depth[lag - 1] && depth[lag] < depth[lag + 1])
      work.dips.push_back(bottom_of(depth, lag));
  if (work.dips.empty()) return;
  Dip& deepest = *std::ranges::min_element(work.dips, {}, &Dip::depth);
  for (std::size_t i = 0; i < threshold_count; ++i) {
    const float threshold = static_cast<float>(i + 1) / static_cast<float>(threshold_count);
    const auto first = std::ranges::find_if(work.dips, [&](const Dip& dip) { return dip.depth < threshold; });
    if (first != work.dips.end())
      first->probability += work.prior.at(i);
    else
      deepest.probability += work.prior.at(i) * no_dip_weight;
  }
}

std::span<const PitchCandidate> PitchFinder::candidates(std::span<const float> samples) {
  Work& work = *work_;
  find_difference(samples);
  weigh_dips();
  work.found.clear();
  constexpr float least_probability = 0.005F;
  for (const Dip& dip : work.dips) {
    if (dip.probability < least_probability) continue;
    const double hz = work.rate / dip.lag;
    work.found.push_back({static_cast<float>(69.0 + 12.0 * std::log2(hz / 440.0)), dip.probability});
  }
  return work.found;
}

}  // namespace insideline::io
