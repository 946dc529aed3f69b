// What pitches a moment of sound may have, and how likely each is. YIN: A. de Cheveigne and H. Kawahara, J. Acoust.
// Soc. Am. 111 (2002) 1917-1930; with a probability for each candidate: M. Mauch and S. Dixon, "pYIN", Proc. ICASSP
// 2014, 659-663.
#pragma once

#include <memory>
#include <span>
#include <vector>

namespace insideline::io {

struct PitchCandidate {
  float midi = 69.0F;        ///< equal temperament from A4 = 440 Hz, with its fraction
  float probability = 0.0F;  ///< those of a moment add up to how likely it is to have a pitch at all
};

struct Dip;

class PitchFinder {
 public:
  /// Pitches from `lowest_hz` to `highest_hz`, both > 0, of sound with `rate` samples a second.
  PitchFinder(double rate, double lowest_hz, double highest_hz);
  ~PitchFinder();
  PitchFinder(const PitchFinder&) = delete;
  PitchFinder& operator=(const PitchFinder&) = delete;

  [[nodiscard]] std::size_t window() const;  ///< samples that candidates are taken from
  /// `samples` are window() in number. The likeliest need not be the first.
  std::span<const PitchCandidate> candidates(std::span<const float> samples);

 private:
  struct Work;
  void find_difference(std::span<const float> samples);
  [[nodiscard]] Dip bottom_near(std::size_t lag) const;
  void weigh_dips();
  [[nodiscard]] double level_at(std::span<const float> samples, double hz) const;
  [[nodiscard]] double odd_partials_db(std::span<const float> samples, double hz) const;
  void give_to_octaves_below(std::span<const float> samples);

  std::unique_ptr<Work> work_;
};

}  // namespace insideline::io
