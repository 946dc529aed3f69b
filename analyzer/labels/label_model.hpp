// The linear chain: every note of a chain has its possible readings, neighbours
// constrain each other, and the scores of the table add up along a path. The best path
// is found by Viterbi's algorithm, the probability of every reading by the exact
// forward-backward algorithm in log space.
#pragma once

#include "analyzer/labels/reading.hpp"
#include "analyzer/settings.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace insideline {

/// The readings of one note with their probabilities, which add up to 1.
struct WeighedReadings {
  std::span<const Reading> readings;
  std::span<const double> probabilities;  ///< parallel to `readings`
  std::size_t best = 0;                   ///< the reading on the best path; never in an unlikelier role than another
};

/// All notes of a chain. What they have lies side by side, so that no note costs an allocation.
struct WeighedChain {
  [[nodiscard]] std::size_t size() const { return best.size(); }
  [[nodiscard]] WeighedReadings operator[](std::size_t note) const {
    const std::size_t count = starts[note + 1] - starts[note];
    return {{readings.data() + starts[note], count}, {probabilities.data() + starts[note], count}, best[note]};
  }

  std::vector<Reading> readings;
  std::vector<double> probabilities;  ///< parallel to `readings`
  std::vector<std::size_t> starts;    ///< of each note in `readings`, and the end of the last
  std::vector<std::size_t> best;      ///< one a note, counted from its start
};

/// One entry a note of `chain`. Time is linear in its notes.
WeighedChain solve_chain(const Chain& chain, Hearing hearing);

}  // namespace insideline
