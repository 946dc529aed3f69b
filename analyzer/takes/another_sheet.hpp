// Whether a take is of this sheet at all, or of this sheet in another octave or key: written pitch played as it is
// sounding, a part for another instrument.
#pragma once

#include "analyzer/takes/assessment.hpp"

#include <cstdint>
#include <optional>

namespace insideline {

/// Why the take cannot be judged against this sheet as it is.
struct AnotherSheet {
  Share right;                   ///< of the sheet's notes, as it is
  std::optional<int> semitones;  ///< the take is so much too high; moved down by it, it is this sheet
  std::optional<Share> right_if_moved;
  bool as_written = false;  ///< so moved, it is the pitch that the sheet's player reads
};

/// Set where far more of the sheet is right if the whole take is moved, and where fewer than half of the notes fit or
/// no alignment explains the take better than one with the sheet backwards.
std::optional<AnotherSheet> looks_like_another_sheet(const Solo& sheet, const Solo& take, const Assessment& assessment);

}  // namespace insideline
