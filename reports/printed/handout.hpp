// The printed sheet as LilyPond text: our prelude, then calls with the solo's notes,
// chords, degrees and figures. Text from a file is in it only as quoted strings.
#pragma once

#include "reports/printed/sheet.hpp"

#include <string>

namespace insideline::reports {

/// `options.bars` must name a bar that the solo has (see excerpt_of).
std::string handout_text(const Report& report, const HandoutOptions& options);

/// The annotated line alone, without title, legend and summary, as systems for a screen. `bars` must name a bar that
/// the solo has.
std::string screen_text(const Report& report, const BarRange& bars);

}  // namespace insideline::reports
