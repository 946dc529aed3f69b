// How much of an attack a moment of sound is: its level, and how far the partials rise above those of a moment before,
// with a maximum over neighbouring bins so that vibrato is none. S. Boeck and G. Widmer, "Maximum filter vibrato
// suppression for onset detection", Proc. DAFx 2013.
#pragma once

#include <cstddef>
#include <memory>
#include <span>

namespace insideline::io {

struct AttackSigns {
  float level_db = -120.0F;  ///< of a short window, against full scale
  float rise = 0.0F;         ///< mean rise of the partials, in units of ten decibels
};

class AttackMeter {
 public:
  explicit AttackMeter(double rate);
  ~AttackMeter();
  AttackMeter(const AttackMeter&) = delete;
  AttackMeter& operator=(const AttackMeter&) = delete;

  [[nodiscard]] std::size_t window() const;  ///< samples
  /// The next moment; `samples` are window() in number.
  AttackSigns next(std::span<const float> samples);

 private:
  struct Work;
  std::unique_ptr<Work> work_;
};

}  // namespace insideline::io
