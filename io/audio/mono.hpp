// The sound as one channel at a rate that is enough for the pitch of any instrument, a block at a time, so that memory
// does not grow with the length of a recording; and how it was recorded: how loud, whether cut off at full scale.
#pragma once

#include "io/audio/sound_file.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace insideline::io {

struct SoundLevels {
  double seconds = 0.0;
  double peak = 0.0;           ///< 1 is full scale
  double clipped_share = 0.0;  ///< of all samples, those in a row of three or more at full scale
};

/// Throws ReadError while reading: samples that are no numbers, or more than an hour.
class MonoSound {
 public:
  explicit MonoSound(SoundFile& file);

  [[nodiscard]] double rate() const { return rate_; }  ///< samples a second, at least 16,000 where the file has them
  /// The next samples; empty at the end. Valid until the next call.
  std::span<const float> next_block();
  /// Of what has been read.
  [[nodiscard]] SoundLevels levels() const;

 private:
  void take_frame(std::span<const float> frame);
  void count_clipping(float sample);

  SoundFile& file_;
  std::size_t step_;  ///< so many samples become one
  double rate_;
  std::vector<float> filter_;   ///< the low-pass before samples are left out
  std::vector<float> block_;    ///< as it comes from the file
  std::vector<float> pending_;  ///< one channel at the rate of the file; the filter still needs it
  std::vector<float> out_;
  std::size_t frames_ = 0;
  std::size_t clipped_ = 0;
  std::size_t clip_run_ = 0;
  float last_ = 0.0F;
  float peak_ = 0.0F;
  bool at_end_ = false;
};

}  // namespace insideline::io
