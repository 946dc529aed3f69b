// A practice sheet as LilyPond text: the plan, under it the line with its chords, plain black notes and no
// signs but the small notes in brackets where two tones are equally near.
#pragma once

#include "reports/drill_plan.hpp"
#include "reports/printed/sheet.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace insideline::reports {

enum class DegreeRow : std::uint8_t { shown, left_out };

struct DrillSheetOptions {
  Paper paper = Paper::a4;
  PrintedPitch pitch = PrintedPitch::concert;
  DegreeRow degrees = DegreeRow::left_out;
};

std::string drill_sheet_text(const DrillReport& report, const DrillSheetOptions& options);

/// The degree of each note as it stands under it, "b3", or "(b9)" where the chord does not have the note; empty where
/// no chord sounds.
std::vector<std::string> degree_names(const Drill& drill, const DrillSettings& settings);

}  // namespace insideline::reports
