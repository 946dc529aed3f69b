// The notes of a row of moments, as the cheapest path through time over "silence" and every semitone (A. Viterbi, IEEE
// Trans. Inf. Theory 13 (1967) 260-269). A new note costs less where there is an attack; a pitch that lasts earns its
// note without one, which makes a slur. The path is given out as soon as it can no longer change, so that memory
// does not grow with the length.
#pragma once

#include "io/audio/moments.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace insideline::io {

struct PathSettings {
  int lowest_midi = 36;
  int highest_midi = 96;
  float tuning = 0.0F;  ///< semitones that the recording is above A4 = 440 Hz
};

/// What the path says of one moment.
struct PathStep {
  std::optional<int> midi;   ///< none for silence
  bool begins_note = false;  ///< also where a note of the same pitch was sounding
};

class NotePath {
 public:
  explicit NotePath(const PathSettings& settings);

  /// The next moment; `attack` is how surely there is one, 0 to 1; `sounds` how surely it is no silence.
  void add(const Moment& moment, float attack, float sounds);
  /// What has become certain since the last call, in order; with `at_end` all of it.
  std::vector<PathStep> certain(bool at_end);

 private:
  struct From {
    std::uint8_t state = 0;
    bool begins_note = false;
  };
  [[nodiscard]] std::size_t best_state() const;
  [[nodiscard]] PathStep step(std::size_t state, bool begins_note) const;
  std::vector<float> pitch_costs(const Moment& moment, float sounds) const;

  PathSettings settings_;
  std::size_t states_;                   ///< silence, then every semitone
  std::vector<float> costs_;             ///< of the cheapest path to each state
  float recent_attack_ = 0.0F;           ///< fades: the pitch of a new note is seen later than its attack
  std::vector<std::vector<From>> from_;  ///< for each moment that is not certain yet
};

/// How well a moment fits a pitch, 0 to 1.
float fit(const Moment& moment, float midi);

}  // namespace insideline::io
