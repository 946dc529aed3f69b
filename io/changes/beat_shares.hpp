// How the chords of a bar share its beats where the chart gives no beats.
// Common practice, no source: equal whole beats, and what is left over goes to
// the first chords, one beat each: two in 4/4 get 2+2, three 2+1+1, two in 3/4 2+1.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/changes.hpp"

#include <optional>
#include <vector>

namespace insideline::io {

/// The beats players tap in a bar: 4/4 has 4; the compound meters 6/8, 9/8 and 12/8 have 2, 3 and 4.
int felt_beats(const Meter& meter);

/// The length of each of `chords` chords (> 0) in a bar, in quarter notes; they fill it.
/// In order of trial: felt beats, counted beats, quarters in meters of half notes; more
/// chords than that must divide every counted beat equally. None where they do not.
std::optional<std::vector<Beats>> shared_beats(const Meter& meter, int chords);

/// The lengths where chord i is given `beats[i]` beats (> 0): counted beats, or felt beats where
/// only those fill the bar. None where neither does.
std::optional<std::vector<Beats>> given_beats(const Meter& meter, const std::vector<int>& beats);

}  // namespace insideline::io
