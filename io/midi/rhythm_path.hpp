// The cheapest reading of a played line: one subdivision a beat, one part of it a note, found over the whole line by
// dynamic programming. A note costs its distance from where this player would sound it, in standard deviations; and
// what is written further than a sixth of a beat from where it was played must be well explained. Nothing is ever moved
// by a whole sixteenth.
#pragma once

#include "io/midi/beat_cells.hpp"
#include "io/midi/lateness.hpp"
#include "io/midi/subdivisions.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

/// One note on the page.
struct Placed {
  std::uint32_t cell = 0;        ///< index into the beats
  std::uint8_t subdivision = 0;  ///< index into the subdivisions
  std::uint8_t part = 0;
  bool grace = false;  ///< leads to the next note that is none; cell and part are that note's
};

struct Reading {
  std::vector<Placed> placed;  ///< one for each note, in order
  double cost = 0.0;
};

/// Whether notes must stay near where they were played. A grid that is forced on a line may take them anywhere.
enum class Reach : std::uint8_t { near, anywhere };

/// `cells` is not empty and covers the notes; `manner` has a lateness for each.
Reading cheapest_path(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                      std::span<const Subdivision> figures, const Manner& manner, Reach reach = Reach::near);

}  // namespace insideline::io
