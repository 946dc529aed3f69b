// A hand-made report of three bars, so that the reports are tested without the analysis:
//   bar 1, Dm7   D4 F4 A4 C5 up the chord, E5 a held ninth, D5 Db5 passing
//   bar 2, G7    B4, a rest, F4, A4, and E4 anticipating the chord to come
//   bar 3, Cmaj7 E4 held over, Eb4 a grace note before D4 (outside)
#pragma once

#include "reports/report.hpp"

namespace insideline::tests {

reports::Report sample_report();

/// The same without a single note under a chord: every share is undefined.
reports::Report report_without_chords();

}  // namespace insideline::tests
