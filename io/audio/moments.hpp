// A recording as a row of moments, some six thousandths of a second apart: what pitches each may have, how loud it is
// and how much of an attack. One after another, so that memory does not grow with the length.
#pragma once

#include "io/audio/attack.hpp"
#include "io/audio/mono.hpp"
#include "io/audio/pitch_candidates.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace insideline::io {

struct Moment {
  static constexpr std::size_t most_candidates = 6;
  std::array<PitchCandidate, most_candidates> candidates{};  ///< the likeliest first; behind `count` nothing
  std::size_t count = 0;
  AttackSigns attack{};
};

class Moments {
 public:
  /// Pitches as MIDI numbers.
  Moments(MonoSound& sound, double lowest_midi, double highest_midi);

  [[nodiscard]] double seconds_between() const { return static_cast<double>(hop_) / sound_.rate(); }
  std::optional<Moment> next();

 private:
  std::span<const float> around(std::size_t window);

  MonoSound& sound_;
  std::size_t hop_;
  PitchFinder pitches_;
  AttackMeter attacks_;
  std::size_t before_;           ///< samples that a window reaches back
  std::size_t behind_;           ///< and ahead
  std::vector<float> samples_;   ///< from `before_` ahead of the next moment on
  std::size_t at_ = 0;           ///< of the next moment, in `samples_`
  std::size_t heard_ = 0;        ///< samples of the recording so far
  std::size_t next_sample_ = 0;  ///< of the recording, where the next moment lies
  bool at_end_ = false;
};

}  // namespace insideline::io
