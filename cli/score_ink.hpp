// The labels of an analysis as what is written into a score: io knows no roles, reports no files.
#pragma once

#include "io/musicxml/annotated_score.hpp"
#include "reports/report.hpp"

#include <cstdint>
#include <string>
#include <string_view>

namespace insideline::cli {

/// Degrees with the marks of every other report, those of grace notes before that of their note: "(11) 3"; heads in the
/// colours of the printed page, arpeggios with their way and cell: "down 5-3-1".
io::ScoreInk score_ink(const reports::Report& report);

/// The chords of a changes file as symbols; the score's own are there already.
enum class ChordInkWanted : std::uint8_t { from_changes_file, none };

/// The file that --annotated writes: the solo of `solo_bytes` with its labels, packed where `destination`
/// ends in .mxl. Throws io::ReadError where the solo is not a MusicXML score.
std::string annotated_file(const reports::Report& report, std::string_view solo_bytes, std::string_view destination,
                           ChordInkWanted chords);

}  // namespace insideline::cli
