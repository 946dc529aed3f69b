// The thread through a chorus: of all ways to pick one sounded chord tone under each
// chord, the one that moves least. It shows the voice leading inside the line, apart from
// what the line does between those notes.
#pragma once

#include "analyzer/measures/rotation.hpp"

#include <vector>

namespace insideline {

/// One thread a chorus. A note is at hand under every chord during which it sounds and of
/// which it is a tone, so a note pushed ahead of its chord and held counts for it. Chords
/// that the line gives no tone are left out, also of the bounds. `least_possible` may take
/// any tone of the same chords in any octave; `by_chance` is the mean over the turned
/// changes (24 turns at most, spread evenly), each scaled to as many steps as the real
/// thread has. Among equal threads the one with the earliest notes is given.
std::vector<Thread> find_threads(const HeardLine& line, const Solo& solo, const Harmony& harmony,
                                 const ChangesRing& ring);

}  // namespace insideline
