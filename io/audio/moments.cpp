#include "io/audio/moments.hpp"

#include <algorithm>
#include <cmath>

namespace insideline::io {
namespace {

constexpr double hop_seconds = 0.0058;  // 256 samples at 44,100 a second, as in Mauch and Dixon, section 3

double hertz(double midi) { return 440.0 * std::exp2((midi - 69.0) / 12.0); }

}  // namespace

// Half a semitone more on either side, for recordings that are not tuned to 440.
Moments::Moments(MonoSound& sound, double lowest_midi, double highest_midi)
    : sound_(sound),
      hop_(std::max<std::size_t>(1, static_cast<std::size_t>(hop_seconds * sound.rate()))),
      pitches_(sound.rate(), hertz(lowest_midi - 0.6), hertz(highest_midi + 0.6)),
      attacks_(sound.rate()),
      before_(std::max(pitches_.window(), attacks_.window()) / 2 + 1),
      behind_(before_ + 1),
      samples_(before_, 0.0F),
      at_(before_) {}

std::span<const float> Moments::around(std::size_t window) {
  return std::span<const float>(samples_).subspan(at_ - window / 2, window);
}

std::optional<Moment> Moments::next() {
  while (!at_end_ && at_ + behind_ > samples_.size()) {
    const auto block = sound_.next_block();
    samples_.erase(samples_.begin(), samples_.begin() + static_cast<std::ptrdiff_t>(at_ - before_));
    at_ = before_;
    heard_ += block.size();
    if (block.empty()) {
      at_end_ = true;
      samples_.insert(samples_.end(), before_ + behind_, 0.0F);
    }
    samples_.insert(samples_.end(), block.begin(), block.end());
  }
  if (at_ + behind_ > samples_.size() || next_sample_ >= heard_) return std::nullopt;
  Moment moment;
  moment.attack = attacks_.next(around(attacks_.window()));
  std::vector<PitchCandidate> found;
  for (const PitchCandidate& each : pitches_.candidates(around(pitches_.window()))) found.push_back(each);
  std::ranges::sort(found, std::ranges::greater{}, &PitchCandidate::probability);
  moment.count = std::min(found.size(), Moment::most_candidates);
  std::copy_n(found.begin(), moment.count, moment.candidates.begin());
  at_ += hop_;
  next_sample_ += hop_;
  return moment;
}

}  // namespace insideline::io
