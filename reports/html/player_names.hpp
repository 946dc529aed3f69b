// The names of notes and chords for the players whose instruments transpose, so that one page serves a whole class:
// each reads the line in the pitch of the own instrument, spelled as it is written for that player.
#pragma once

#include "reports/report.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline::reports {

/// All names of the page moved by less than an octave.
struct MovedNames {
  Interval by;                      ///< above the pitch of the page
  std::vector<std::string> chords;  ///< symbols, parallel to the chords of the analysis
  std::vector<std::string> notes;   ///< parallel to the notes of the solo
};

/// Somebody who may read the page.
struct PageReader {
  std::string name;                  ///< "concert pitch", "Alto saxophone"
  std::optional<std::size_t> moved;  ///< index of the names; none: those of the page
  int octaves = 0;                   ///< to be added to the octave of every note
};

struct PlayerNames {
  std::vector<MovedNames> moved;
  std::vector<PageReader> readers;  ///< the first reads the page as it is
};

PlayerNames player_names(const Report& report);

}  // namespace insideline::reports
