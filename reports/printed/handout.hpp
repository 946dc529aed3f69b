// The printed sheet as LilyPond text: our prelude, then calls with the solo's notes,
// chords, degrees and figures. Text from a file is in it only as quoted strings.
#pragma once

#include "reports/printed/sheet.hpp"

#include <cstddef>
#include <string>

namespace insideline::reports {

/// `options.bars` must name a bar that the solo has (see excerpt_of).
std::string handout_text(const Report& report, const HandoutOptions& options);

/// How many systems the sheet has. `options.bars` as above.
std::size_t lines_of_music(const Report& report, const HandoutOptions& options);

/// The most systems that a sheet on one page takes (HandoutOptions::one_page), with an empty staff under each line or
/// without: tried on A4 and Letter with seven tasks.
constexpr std::size_t most_lines_on_one_page = 8;
constexpr std::size_t most_double_lines_on_one_page = 4;

/// The annotated line alone, without title, legend and summary, as systems for a screen. `bars` must name a bar that
/// the solo has.
std::string screen_text(const Report& report, const BarRange& bars);

}  // namespace insideline::reports
