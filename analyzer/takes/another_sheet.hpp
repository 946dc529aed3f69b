// Whether a take is of this sheet at all, or of this sheet in another octave or key: written pitch played as it is
// sounding, a part for another instrument.
#pragma once

#include "analyzer/takes/assessment.hpp"

#include <cstdint>
#include <optional>

namespace insideline {

/// Why the take cannot be judged against this sheet as it is.
struct AnotherSheet {
  Share right;                   ///< of the sheet's notes, as it is; of those tried where `from_stretches`
  bool from_stretches = false;   ///< told from some stretches of the take, the rest was not looked at
  std::optional<int> semitones;  ///< the take is so much too high; moved down by it, it is this sheet
  std::optional<Share> right_if_moved;
  bool as_written = false;  ///< so moved, it is the pitch that the sheet's player reads
};

/// Set where far more of the sheet is right if the whole take is moved, and where fewer than half of the notes fit or
/// no alignment explains the take better than one with the sheet backwards.
std::optional<AnotherSheet> looks_like_another_sheet(const Solo& sheet, const Solo& take, const Assessment& assessment);

/// The same of a take that is too long to lay it as a whole for nothing: set where each of five stretches of it fits
/// the sheet no better than the sheet backwards, and the take is no moved one either. Short takes are never told so.
std::optional<AnotherSheet> is_clearly_another_sheet(const Solo& sheet, const Solo& take);

}  // namespace insideline
