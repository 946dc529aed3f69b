// The linear chain: every note of a chain has its possible readings, neighbours
// constrain each other, and the scores of the table add up along a path. The probability
// of every reading over all paths is found by the exact forward-backward algorithm
// (Rabiner, A Tutorial on Hidden Markov Models, 1989, with sums scaled note by note).
#pragma once

#include "analyzer/labels/reading.hpp"
#include "analyzer/settings.hpp"

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace insideline {

/// No path leads through it.
constexpr int impossible_score = std::numeric_limits<int>::min() / 4;

/// The readings of a chain and their scores, side by side, so that no note costs an allocation.
struct Lattice {
  [[nodiscard]] std::size_t size() const { return starts.size() - 1; }
  [[nodiscard]] std::size_t count(std::size_t note) const { return starts[note + 1] - starts[note]; }
  [[nodiscard]] std::span<const Reading> at(std::size_t note) const {
    return {readings.data() + starts[note], count(note)};
  }

  std::vector<Reading> readings;
  std::vector<std::size_t> starts;  ///< of each note in `readings`, and the end of the last
};

/// Every way each note of `chain` can be heard.
Lattice lattice_of(const Chain& chain, Hearing hearing);

/// The score of reading `k` of note `note` by itself: the sum of its rows, or impossible_score for a figure that the
/// chain cuts short.
int score_in(const Lattice& lattice, const Chain& chain, std::size_t note, std::size_t k);

/// The readings of one note with their probabilities, which add up to 1. What a user sees as one label (role, figure,
/// chord) may be several readings.
struct WeighedReadings {
  std::span<const Reading> readings;
  std::span<const double> probabilities;  ///< parallel to `readings`
  std::size_t best = 0;                   ///< the likeliest reading of the likeliest label
  double label_probability = 1.0;
  double role_probability = 1.0;
};

/// All notes of a chain.
struct WeighedChain {
  [[nodiscard]] std::size_t size() const { return lattice.size(); }
  [[nodiscard]] WeighedReadings operator[](std::size_t note) const;

  Lattice lattice;
  std::vector<double> probabilities;  ///< parallel to the readings
};

/// Time is linear in the notes. Where two labels are equally likely, to nine places, the one that
/// `add_possible_readings` names first wins: the same on every computer.
WeighedChain solve_chain(const Chain& chain, Hearing hearing);
/// The same with these readings of `chain`; at least one path must lead through them.
WeighedChain solve_lattice(const Chain& chain, Lattice lattice);

/// True where two readings are one label to the user: the same role and figure, against the same chord.
bool same_label(const Reading& a, const Reading& b);

}  // namespace insideline
