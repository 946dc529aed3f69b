// Which rows of the score table apply to two notes that follow each other, read in one way or another.
#pragma once

#include "analyzer/labels/note_context.hpp"
#include "analyzer/labels/reading.hpp"
#include "analyzer/labels/score_table.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline {

/// A set of the rows that speak of two notes together, one bit each.
using JointRows = std::uint16_t;
constexpr std::size_t joint_row_count = 9;
/// How much likelier or less likely each set of rows makes two notes together.
using JointWeights = std::array<double, std::size_t{1} << joint_row_count>;

/// Note `index` of a chain, from the second on, and the note before it. What the place says about the rows between the
/// two is worked out once for all their readings.
class Joint {
 public:
  Joint(const Chain& chain, std::size_t index);

  [[nodiscard]] JointRows rows(const Reading& from, const Reading& to) const;
  /// How much likelier or less likely each of `all_to` is after each of `all_from` than by itself, 0 where it cannot
  /// follow: written to `pair` on, one after the other for the first of `all_to`, then for the next.
  void weigh(std::span<const Reading> all_from, std::span<const Reading> all_to, double* pair) const;

 private:
  /// Of the three rows about motion all that apply; the first of them counts.
  [[nodiscard]] JointRows met(const Reading& from, const Reading& to) const;

  bool same_pitch_;
  JointRows allowed_;
  const JointWeights& weights_;
};

/// The rows for note `index` read as `to` after the note before it read as `from`.
std::vector<Row> rows_between(const Reading& from, const Reading& to, const Chain& chain, std::size_t index);

}  // namespace insideline
