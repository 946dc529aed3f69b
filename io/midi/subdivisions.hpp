// The ways a beat is divided on the page, and what each costs a reader: a plain pair of eighths is free, the odder
// the figure, the dearer. Costs are natural logarithms of odds; common practice, no source, tuned on invented lines.
#pragma once

#include "io/midi/beat_cells.hpp"

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

/// What `--grid` may force.
enum class Grid : std::uint8_t { eighths, triplets, sixteenths, sextuplets, thirty_seconds };

/// Where in the beat the parts of a subdivision sound.
enum class Placing : std::uint8_t {
  even,   ///< at equal distances
  swung,  ///< the second half begins where the swing says
};

constexpr std::size_t most_parts = 12;

struct Subdivision {
  BeatKind kind = BeatKind::simple;
  std::uint8_t parts = 2;
  Placing placing = Placing::even;
  float cost = 0.0F;                      ///< of choosing it
  float skip_cost = 0.0F;                 ///< for each part left out between two notes
  std::array<float, most_parts> enter{};  ///< of the first note falling on this part
  std::array<float, most_parts> leave{};  ///< of the last note falling on this part
  float gain_after_last = 0.0F;           ///< cheaper by this right after the last of as many parts in the beat before
};

/// All of them, or those that the grids allow. A grid of one subdivision brings its coarser kin along:
/// sixteenths allow eighths.
std::vector<Subdivision> subdivisions(std::span<const Grid> grids = {});

}  // namespace insideline::io
