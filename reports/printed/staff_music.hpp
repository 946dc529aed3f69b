// The line on its staff: clef, key, meter, notes with their heads, rests, grace notes,
// ties, tuplets, the brackets over arpeggios and where a chorus begins.
#pragma once

#include "analyzer/notation/rhythm_writing.hpp"
#include "reports/printed/line_plan.hpp"
#include "reports/printed/marks.hpp"
#include "reports/printed/sheet.hpp"

#include <span>
#include <string>
#include <string_view>

namespace insideline::reports {

/// The clef in which the pitches need the fewest ledger lines; where treble and bass are about
/// equal, the bass clef for a line of which half lies at middle C or below.
std::string_view clef_for(std::span<const Pitch> pitches);

/// The clef of the instrument as LilyPond calls it.
std::string_view clef_of(const Instrument& instrument);

/// `bars` are those of the excerpt.
std::string staff_music(const Sheet& sheet, std::span<const WrittenBar> bars, const LinePlan& plan, const Marks& marks);

}  // namespace insideline::reports
