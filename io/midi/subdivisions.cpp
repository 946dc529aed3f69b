#include "io/midi/subdivisions.hpp"

#include <algorithm>
#include <array>
#include <optional>

namespace insideline::io {
namespace {

struct Row {
  Subdivision subdivision;
  std::vector<Grid> allowed_by;
};

// Where a note begins and ends a figure: on its first part as a rule; a triplet without its last note is rare, and its
// third note alone is a swung eighth.
const std::vector<Row>& table() {
  constexpr auto simple = BeatKind::simple;
  constexpr auto compound = BeatKind::compound;
  constexpr auto even = Placing::even;
  constexpr auto swung = Placing::swung;
  using enum Grid;
  static const std::vector<Row> rows = {
      {{simple, 2, swung, 0.0F, 0.0F, {0.0F, 0.3F}, {0.0F, 0.0F}, 0.0F}, {eighths, sixteenths, thirty_seconds}},
      {{simple, 3, even, 2.0F, 1.5F, {0.0F, 0.5F, 4.0F}, {3.0F, 2.0F, 0.0F}, 0.0F}, {triplets, sextuplets}},
      // The second beat of three notes over two beats: its only note is the second third.
      {{simple, 3, even, 12.0F, 3.0F, {20.0F, 0.0F, 20.0F}, {0.0F, 0.0F, 20.0F}, 12.0F}, {triplets, sextuplets}},
      {{simple, 4, even, 3.0F, 0.5F, {0.0F, 1.5F, 1.0F, 1.5F}, {2.0F, 1.5F, 1.0F, 0.0F}, 0.0F},
       {sixteenths, thirty_seconds}},
      {{simple, 4, swung, 4.0F, 0.5F, {0.0F, 1.5F, 1.0F, 1.5F}, {2.0F, 1.5F, 1.0F, 0.0F}, 0.0F},
       {sixteenths, thirty_seconds}},
      {{simple, 6, even, 6.0F, 1.0F, {0.0F, 2.0F, 2.0F, 2.0F, 2.0F, 2.0F}, {2.0F, 2.0F, 2.0F, 2.0F, 1.0F, 0.0F}, 0.0F},
       {sextuplets}},
      {{simple,
        8,
        even,
        7.0F,
        1.0F,
        {0.0F, 2.0F, 2.0F, 2.0F, 2.0F, 2.0F, 2.0F, 2.0F},
        {2.0F, 2.0F, 2.0F, 2.0F, 2.0F, 2.0F, 1.0F, 0.0F},
        0.0F},
       {thirty_seconds}},
      {{simple, 5, even, 9.0F, 2.0F, {0.0F, 2.0F, 3.0F, 3.0F, 4.0F}, {4.0F, 3.0F, 2.0F, 1.0F, 0.0F}, 0.0F}, {}},
      {{simple,
        7,
        even,
        9.0F,
        2.0F,
        {0.0F, 3.0F, 3.0F, 3.0F, 3.0F, 3.0F, 3.0F},
        {4.0F, 4.0F, 3.0F, 3.0F, 2.0F, 1.0F, 0.0F},
        0.0F},
       {}},
      {{compound, 3, even, 0.0F, 0.0F, {0.0F, 0.2F, 0.2F}, {0.0F, 0.0F, 0.0F}, 0.0F},
       {eighths, triplets, sixteenths, sextuplets, thirty_seconds}},
      {{compound, 2, even, 5.0F, 0.0F, {0.0F, 4.0F}, {4.0F, 0.0F}, 0.0F}, {}},
      {{compound,
        6,
        even,
        2.0F,
        0.3F,
        {0.0F, 1.0F, 0.5F, 1.0F, 0.5F, 1.0F},
        {1.0F, 0.5F, 1.0F, 0.5F, 0.5F, 0.0F},
        0.0F},
       {sixteenths, thirty_seconds}},
      {{compound, 4, even, 6.0F, 1.0F, {0.0F, 2.0F, 2.0F, 2.0F}, {3.0F, 2.0F, 1.0F, 0.0F}, 0.0F}, {}},
      {{compound, 12, even, 7.0F, 1.0F, {}, {}, 0.0F}, {thirty_seconds}},
      {{compound, 9, even, 8.0F, 1.0F, {}, {}, 0.0F}, {triplets, sextuplets}},
  };
  return rows;
}

}  // namespace

std::vector<Subdivision> subdivisions(std::span<const Grid> grids) {
  std::vector<Subdivision> chosen;
  for (const Row& row : table()) {
    const auto allows = [&](Grid grid) { return std::ranges::find(row.allowed_by, grid) != row.allowed_by.end(); };
    if (grids.empty() || std::ranges::any_of(grids, allows)) chosen.push_back(row.subdivision);
  }
  return chosen;
}

}  // namespace insideline::io
