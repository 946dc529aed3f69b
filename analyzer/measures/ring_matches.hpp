// How well two rings match at every turn of the one against the other, for rings that are too long to try each turn by
// itself. Whole numbers throughout: the sums are exact.
// Source: the number-theoretic transform, J. M. Pollard, The Fast Fourier Transform in a Finite Field, Mathematics of
// Computation 25 (1971) 365-374.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline {

constexpr std::size_t longest_matched_ring = std::size_t{1} << 22U;

/// Sums up, for every turn t, a[i] * b[i + t] over all places i of the rings, and over all pairs of rings added.
class RingMatches {
 public:
  /// `size` is the length of the rings, 1 to longest_matched_ring.
  explicit RingMatches(std::size_t size);
  /// Both of that length.
  void add(std::span<const std::uint32_t> a, std::span<const std::uint32_t> b);
  /// The sums for turns 0 to size - 1; each must be below 998,244,353.
  [[nodiscard]] std::vector<std::uint32_t> sums() const;

 private:
  std::size_t size_;
  std::vector<std::uint32_t> products_;  ///< transformed
};

}  // namespace insideline
