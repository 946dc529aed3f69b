// The legs of an arpeggio: a fragment that comes down and goes up again is one figure of the line and two arpeggios to
// the player's ear. Common practice, no source.
#pragma once

#include "analyzer/arpeggio_runs.hpp"

#include <vector>

namespace insideline {

/// In order. A leg runs one way through three or more different members, repeats of a pitch aside; a run up or down the
/// stack in which a minority of notes is put into another octave is one leg. None of them is `prepared` yet.
std::vector<Leg> legs_of(const Run& run, const HeardLine& line, const Stack& stack);

/// By the lowest note, `none` where that is a ninth, eleventh or thirteenth.
Inversion inversion_by_lowest(const Member& lowest);

/// True where a member is put into another octave than the run leads to.
bool is_octave_displaced(const Run& run, const HeardLine& line, const Stack& stack);

/// True where a member is struck again before the next.
bool repeats_a_note(const Run& run, const HeardLine& line);

}  // namespace insideline
