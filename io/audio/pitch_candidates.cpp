#include "io/audio/pitch_candidates.hpp"

#include <Eigen/Core>
#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>

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

// An octave below, see give_to_octaves_below: chosen by rendered_instruments on one piece and two fonts, held against
// three other pieces (DEVELOPERS.md). An oboe leaves over 0.03 to 0.08 at half its period; its odd partials lie at +4
// dB, a bassoon's at 0, those of a string's thump at -20.
constexpr double octave_tolerance = 0.06;  // of a period: a semitone
constexpr float least_odd = 0.015F;        // of what is left over
constexpr float most_left_over = 0.5F;     // at the octave, of what is left over here
constexpr float octave_share = 0.8F;       // not all: an octave below may be the last note, ringing on
constexpr float least_given = 0.05F;
constexpr double least_odd_db = -9.0;

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

/// De Cheveigne and Kawahara, section II.E: where the bottom of a parabola through three values lies, in their spacing.
double parabola_shift(double before, double here, double after) {
  const double bend = before - 2.0 * here + after;
  return bend > 0.0 ? std::clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0.0;
}

/// A value between two samples: a sinc under a Hann window over so many on either side (A. Oppenheim and R. Schafer,
/// Discrete-Time Signal Processing, section 7.5).
double between(std::span<const float> values, double place) {
  constexpr int reach = 8;
  const int middle = static_cast<int>(std::lround(place));
  double sum = 0.0;
  for (int i = middle - reach; i <= middle + reach; ++i) {
    const double off = place - i;
    const double angle = std::numbers::pi * off;
    const double sinc = std::abs(off) < 1e-9 ? 1.0 : std::sin(angle) / angle;
    const double window = 0.5 + 0.5 * std::cos(angle / (reach + 1));
    // A correlation is the same at a lag and at its negative, but for the ends of the window.
    sum += sinc * window * static_cast<double>(values[static_cast<std::size_t>(std::abs(i))]);
  }
  return sum;
}

}  // namespace

struct PitchFinder::Work {
  double rate = 0.0;
  std::size_t shortest_lag = 2;
  std::size_t longest_lag = 3;
  std::size_t summed = 0;  ///< samples in each sum of squares
  std::array<float, threshold_count> prior = threshold_prior();
  Eigen::FFT<float> transform{};
  std::vector<float> hann;  ///< over all samples of a moment
  std::vector<float> first;
  std::vector<float> all;
  std::vector<float> product;
  std::vector<std::complex<float>> first_spectrum;
  std::vector<std::complex<float>> all_spectrum;
  std::vector<float> difference;  ///< by lag, normalised: their equation 8
  std::vector<double> energy;     ///< by lag, of the window and of the one a lag later
  std::vector<double> squared;    ///< by lag, the difference that is not normalised
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
  const std::size_t whole = work.summed + work.longest_lag + 1;
  for (std::size_t i = 0; i < whole; ++i) {
    const double place = (static_cast<double>(i) + 0.5) / static_cast<double>(whole);
    work.hann.push_back(static_cast<float>(0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * place)));
  }
  work.first.resize(size);
  work.all.resize(size);
  work.difference.resize(work.longest_lag + 1);
  work.energy.resize(work.longest_lag + 1);
  work.squared.resize(work.longest_lag + 1);
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
  work.energy[0] = 2.0 * energy;
  for (std::size_t lag = 1; lag <= work.longest_lag; ++lag) {
    const double leaves = samples[lag - 1];
    const double enters = samples[lag - 1 + work.summed];
    later += enters * enters - leaves * leaves;
    work.energy[lag] = energy + later;
    const double squared = std::max(0.0, energy + later - 2.0 * static_cast<double>(work.product[lag]));
    work.squared[lag] = squared;
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
      work.dips.push_back(bottom_near(lag));
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

/// The bottom of the dip around a lag. The parabola through whole lags is too shallow where a period has few samples,
/// so that the correlation is taken between them.
Dip PitchFinder::bottom_near(std::size_t lag) const {
  const Work& work = *work_;
  const double scale = static_cast<double>(work.difference[lag]) / std::max(work.squared[lag], 1e-30);
  const auto at = [&](double place) {
    const auto whole = static_cast<std::size_t>(place);
    const double part = place - static_cast<double>(whole);
    const double energy = (1.0 - part) * work.energy[whole] + part * work.energy[whole + 1];
    return energy - 2.0 * between(work.product, place);
  };
  const auto middle = static_cast<double>(lag);
  double shift = parabola_shift(work.difference[lag - 1], work.difference[lag], work.difference[lag + 1]);
  constexpr double step = 0.25;
  const double before = at(middle + shift - step);
  const double here = at(middle + shift);
  const double after = at(middle + shift + step);
  const double finer = parabola_shift(before, here, after);
  const double bottom = here - 0.25 * (before - after) * finer;
  shift += step * finer;
  return {middle + shift, static_cast<float>(std::max(0.0, bottom * scale)), 0.0F};
}

/// In decibels, of the moment at a frequency.
double PitchFinder::level_at(std::span<const float> samples, double hz) const {
  const std::complex<double> turn = std::polar(1.0, -2.0 * std::numbers::pi * hz / work_->rate);
  std::complex<double> pointer = 1.0;
  std::complex<double> sum = 0.0;
  for (std::size_t i = 0; i < work_->hann.size(); ++i) {
    sum += pointer * static_cast<double>(work_->hann[i] * samples[i]);
    pointer *= turn;
  }
  return 10.0 * std::log10(std::norm(sum) + 1e-12);
}

/// How far the third and the fifth partial of a pitch stand out: against the weaker of their neighbours, which are
/// partials of the octave above as well. X. Sun, "Pitch determination and voice quality analysis using
/// subharmonic-to-harmonic ratio", Proc. ICASSP 2002, 333-336, compares the same partials.
double PitchFinder::odd_partials_db(std::span<const float> samples, double hz) const {
  std::array<double, 5> partials{};  // from the second to the sixth
  for (std::size_t i = 0; i < partials.size(); ++i)
    partials.at(i) = level_at(samples, std::min(hz * static_cast<double>(i + 2), 0.49 * work_->rate));
  const double third = partials[1] - std::min(partials[0], partials[2]);
  const double fifth = partials[3] - std::min(partials[2], partials[4]);
  return 0.5 * (third + fifth);
}

/// Where the second partial rules, as in an oboe, half a period looks like one, but for what the odd partials leave
/// over. Noise leaves over as much at one period as at two, vibrato more at two. The thump of a plucked string leaves
/// something over as well, but has no partials.
void PitchFinder::give_to_octaves_below(std::span<const float> samples) {
  for (Dip& dip : work_->dips) {
    if (dip.probability < least_given) continue;
    const auto octave = std::ranges::find_if(work_->dips, [&](const Dip& other) {
      return std::abs(other.lag - 2.0 * dip.lag) < octave_tolerance * dip.lag;
    });
    if (octave == work_->dips.end()) continue;
    if (dip.depth - octave->depth < least_odd || octave->depth > most_left_over * dip.depth) continue;
    if (odd_partials_db(samples, work_->rate / octave->lag) < least_odd_db) continue;
    const float given = octave_share * dip.probability;
    octave->probability += given;
    dip.probability -= given;
  }
}

std::span<const PitchCandidate> PitchFinder::candidates(std::span<const float> samples) {
  Work& work = *work_;
  find_difference(samples);
  weigh_dips();
  give_to_octaves_below(samples);
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
