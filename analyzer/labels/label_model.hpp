// The linear chain: every note of a chain has its possible readings, neighbours
// constrain each other, and the scores of the table add up along a path. The best path
// is found by Viterbi's algorithm, the probability of every reading by the exact
// forward-backward algorithm in log space.
#pragma once

#include "analyzer/labels/reading.hpp"
#include "analyzer/settings.hpp"

#include <cstddef>
#include <vector>

namespace insideline {

/// The readings of one note with their probabilities, which add up to 1.
struct WeighedReadings {
  std::vector<Reading> readings;
  std::vector<double> probabilities;  ///< parallel to `readings`
  std::size_t best = 0;               ///< the reading on the best path; never in an unlikelier role than another
};

/// One entry a note of `chain`. Time is linear in its notes.
std::vector<WeighedReadings> solve_chain(const Chain& chain, Hearing hearing);

}  // namespace insideline
