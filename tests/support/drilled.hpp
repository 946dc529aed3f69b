// Practice sheets for tests: charts from a line of chord symbols, and sheets over them.
#pragma once

#include "analyzer/drills/drill.hpp"
#include "analyzer/model/changes.hpp"

#include <string>
#include <string_view>

namespace insideline::tests {

/// "Dm7 G7 | Cmaj7 | N.C. | %": the chords of a bar share it equally.
Changes chart(std::string_view bars, const Meter& meter = {});

/// Fails the test where there is no sheet.
Drill drilled(const Changes& changes, const DrillSettings& settings = {});

/// "G4 F4 D4 | ...": the names, bars parted by "|"; "-" for a silent bar.
std::string names_of(const Drill& drill);

/// Chords drawn at random from the usual kinds, each lasting half a bar to two bars; the same for the same seed.
Changes random_chart(unsigned seed, int bars);

}  // namespace insideline::tests
