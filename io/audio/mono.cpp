#include "io/audio/mono.hpp"

#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace insideline::io {
namespace {

constexpr double least_rate = 20'000.0;  // a fifth above the highest note, C8, is at 6.3 kHz
constexpr std::size_t block_frames = 4'096;
constexpr float full_scale = 0.997F;  // 8-bit sound stops at 127 of 128
constexpr std::size_t clip_run = 3;   // samples; fewer are an honest peak (common practice, no source)

std::size_t step_for(int rate) {
  return std::max<std::size_t>(1, static_cast<std::size_t>(static_cast<double>(rate) / least_rate));
}

/// A windowed sinc with its edge at 0.45 of the new rate (Hann window; A. Oppenheim and R. Schafer, Discrete-Time
/// Signal Processing, section 7.5).
std::vector<float> low_pass(std::size_t step) {
  if (step == 1) return {1.0F};
  const auto half = static_cast<int>(step) * 8;
  const double edge = 0.45 / static_cast<double>(step);
  std::vector<float> filter;
  double sum = 0.0;
  for (int i = -half; i <= half; ++i) {
    const double angle = 2.0 * std::numbers::pi * edge * i;
    const double sinc = i == 0 ? 1.0 : std::sin(angle) / angle;
    const double window = 0.5 + 0.5 * std::cos(std::numbers::pi * i / (half + 1));
    filter.push_back(static_cast<float>(sinc * window));
    sum += sinc * window;
  }
  for (float& tap : filter) tap = static_cast<float>(tap / sum);
  return filter;
}

}  // namespace

MonoSound::MonoSound(SoundFile& file)
    : file_(file),
      step_(step_for(file.rate())),
      rate_(static_cast<double>(file.rate()) / static_cast<double>(step_)),
      filter_(low_pass(step_)),
      block_(block_frames * static_cast<std::size_t>(file.channels())),
      pending_(filter_.size() / 2, 0.0F) {}  // so that the first sample lies at the start

void MonoSound::count_clipping(float sample) {
  clip_run_ = std::abs(sample) >= full_scale && (sample > 0.0F) == (last_ > 0.0F) ? clip_run_ + 1 : 0;
  if (clip_run_ == clip_run) clipped_ += clip_run;
  if (clip_run_ > clip_run) ++clipped_;
  last_ = sample;
}

void MonoSound::take_frame(std::span<const float> frame) {
  float sum = 0.0F;
  float loudest = 0.0F;  // one channel may be silent
  for (const float sample : frame) {
    if (!std::isfinite(sample))
      throw ReadError(place_of(file_.name()), fmt::format("the sample at {:.3f} s is no number; export it again as WAV",
                                                          static_cast<double>(frames_) / file_.rate()));
    if (std::abs(sample) > std::abs(loudest)) loudest = sample;
    sum += std::clamp(sample, -4.0F, 4.0F);
  }
  peak_ = std::max(peak_, std::abs(loudest));
  count_clipping(loudest);
  ++frames_;
  pending_.push_back(sum / static_cast<float>(frame.size()));
}

std::span<const float> MonoSound::next_block() {
  out_.clear();
  const auto channels = static_cast<std::size_t>(file_.channels());
  while (out_.empty() && !at_end_) {
    const std::size_t got = file_.read(block_);
    for (std::size_t i = 0; i < got; ++i) take_frame(std::span<const float>(block_).subspan(i * channels, channels));
    if (static_cast<long long>(frames_) > longest_recording_seconds * file_.rate())
      throw ReadError(place_of(file_.name()), "the recording is longer than an hour; cut it to the take");
    if (got == 0) {
      at_end_ = true;
      pending_.insert(pending_.end(), filter_.size() / 2, 0.0F);
    }
    std::size_t from = 0;
    for (; from + filter_.size() <= pending_.size(); from += step_) {
      float sum = 0.0F;
      for (std::size_t i = 0; i < filter_.size(); ++i) sum += filter_[i] * pending_[from + i];
      out_.push_back(sum);
    }
    pending_.erase(pending_.begin(), pending_.begin() + static_cast<std::ptrdiff_t>(std::min(from, pending_.size())));
  }
  return out_;
}

SoundLevels MonoSound::levels() const {
  const double frames = std::max(1.0, static_cast<double>(frames_));
  return {static_cast<double>(frames_) / file_.rate(), peak_, static_cast<double>(clipped_) / frames};
}

}  // namespace insideline::io
