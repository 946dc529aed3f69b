// Whether a practice sheet is what it says: the finished sheet is analysed like any solo, and the places are counted
// where it keeps what it claims.
#pragma once

#include "analyzer/drills/drill.hpp"
#include "analyzer/drills/drill_in_keys.hpp"

#include <optional>
#include <set>
#include <span>

namespace insideline {

struct AimCheck {
  Share kept;            ///< of the places where the chords allow it
  std::set<int> missed;  ///< bars of the others
};

/// What is counted: for lines of nearest and of common tones, and for descents, the changes (for descents also that the
/// chord before comes straight down); for guide tones the notes that are one and are led by the least motion; for
/// enclosures the thirds that are reached from above and below. None for arpeggios and cells. Nothing leads into a key
/// of `keys`: each begins anew.
std::optional<AimCheck> check_aim(const Drill& drill, const DrillSettings& settings,
                                  std::span<const KeyStart> keys = {});

}  // namespace insideline
