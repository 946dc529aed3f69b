// How a performance sits in time: how far its eighths swing, and how far ahead of or behind the beat it plays.
// Swing as beat-upbeat ratio: Benadon, Ethnomusicology 50(1), 2006; off-beat = r/(1+r) of the beat. Lateness apart for
// downbeats and off-beats after Nelias et al., Communications Physics, 2022.
#pragma once

#include "analyzer/model/solo.hpp"

#include <optional>
#include <vector>

namespace insideline {

/// Distances from the beat; above zero is behind it. Percent are of the beat that is felt.
struct Lateness {
  int notes = 0;
  double mean_ms = 0.0;
  double spread_ms = 0.0;  ///< standard deviation
  double mean_percent = 0.0;
  double spread_percent = 0.0;
};

struct BeatLateness {
  int beat = 1;  ///< as counted in the bar
  Lateness lateness;
};

struct Swing {
  int pairs = 0;
  double ratio = 1.0;  ///< median of long to short over pairs of eighths with the next beat played
  double lower = 1.0;  ///< quartiles of the same
  double upper = 1.0;
};

struct TimeFeel {
  std::optional<Swing> swing;         ///< none without a pair of eighths that runs on to the next beat
  Lateness on_beat;                   ///< notes written on a counted beat
  std::vector<BeatLateness> by_beat;  ///< the same by beat of the bar; beats with notes only
  /// Off-beat eighths against where the player's own swing puts them; none without swing.
  std::optional<Lateness> off_beat;
};

/// None for a score, and for a performance without a note on a beat.
std::optional<TimeFeel> time_feel(const Solo& solo);

}  // namespace insideline
