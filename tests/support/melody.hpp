// The melody shorthand of the tests: "C4:1 E4:1/2 r:1/2 G4:0.5 C5:0" is a quarter,
// an eighth, an eighth rest, an eighth and a grace note; "C5:2 C5~:1" ties the second
// to the first. A bar line, "C4:4 | D4:4", checks that the bar is full.
// Chords: "C@0 G7@2" gives onsets in quarters from the first note of the melody.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>
#include <string_view>

namespace insideline::tests {

/// The first note falls on `start_beat` (1 = downbeat) of bar 1 of `meter`, or, for a
/// negative start, that many quarters before bar 1 in a pickup bar.
Solo solo_from(std::string_view melody, const Meter& meter = {}, const Beats& start_beat = 1);

/// Chords written over that melody; onsets count from `from`, or else from the melody's first
/// note. Each lasts to the next, the last to the end of the solo. "N.C.@4" leaves a gap.
Harmony harmony_from(std::string_view chords, const Solo& solo, const std::optional<Beats>& from = std::nullopt);

}  // namespace insideline::tests
