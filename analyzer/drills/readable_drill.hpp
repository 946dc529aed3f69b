// A practice sheet for the player of a transposing instrument, spelled so that no key has more than six signs: where E
// would be C sharp major for an alto saxophone, the alto reads D flat, with chords and notes to match. That players
// read the key of fewer signs is common practice, no source.
#pragma once

#include "analyzer/drills/drill.hpp"

namespace insideline {

/// The key as it is read `up` from where it sounds: of two names for it that with at most six signs. In concert pitch
/// it stays as it is.
Key read_key(const Key& sounding, const Interval& up);

/// The sheet with the same sounds, so named that moved by `up` every key of it is read as read_key() says. The names in
/// which it stands are then no concert pitch to show anybody: E may be F flat.
Drill readable_drill(Drill drill, const Interval& up);

}  // namespace insideline
