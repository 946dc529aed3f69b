// The cheapest reading of a played line: one subdivision a beat, one part of it a note, found over the whole line by
// dynamic programming. A note costs its distance from where it would sound, in standard deviations of this player.
#pragma once

#include "io/midi/beat_cells.hpp"
#include "io/midi/subdivisions.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

/// How somebody plays.
struct Manner {
  double off_beat = 0.5;          ///< where in a simple beat the second eighth sounds: 0.5 straight, 2/3 at 2:1
  double spread_seconds = 0.020;  ///< standard deviation of onsets around their place
  double late_seconds = 0.0;      ///< mean: above zero is behind the beat
};

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

/// Where part `part` sounds, in parts of its beat.
double position_in_beat(const Subdivision& subdivision, std::size_t part, double off_beat);

/// `manners` holds one manner for all notes or one for each;
/// `cells` is not empty and covers the notes.
Reading cheapest_path(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                      std::span<const Subdivision> figures, std::span<const Manner> manners);

}  // namespace insideline::io
