// What is told of a take: what was right, where most goes wrong, what to do next.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/measures/time_feel.hpp"
#include "analyzer/takes/assessment.hpp"
#include "analyzer/takes/free_playing.hpp"
#include "analyzer/takes/practice_log.hpp"
#include "analyzer/takes/readiness.hpp"
#include "reports/from_sound.hpp"
#include "reports/text/ink.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline::reports {

struct AssessmentReport {
  std::string take_file;
  std::string sheet_title;
  int bound = ReadyBounds{}.from_a_sheet;  ///< ready is fewer than one mistake in so many notes
  TakeBounds bounds = {};
  Assessment assessment;
  std::optional<TimeFeel> time_feel;                   ///< of a take that was played to the tempo of its file
  std::string note_pitch = "as the sheet is written";  ///< whose names the notes have
  std::vector<LoggedTake> takes;  ///< of this sheet, from the practice log, the oldest first; empty without a log
  std::optional<FromSound> from_sound = {};  ///< where the take was heard and not read
};

/// Free playing over changes, without a sheet.
struct FreeReport {
  std::string take_file;
  std::string changes_title;
  Analysis analysis;
  FreePlaying playing;
  int bound = ReadyBounds{}.free;
  std::string pitch = {};  ///< a sentence on whose names the chords have, where they are not in concert pitch
  std::optional<FromSound> from_sound = {};
};

std::string assessment_text(const AssessmentReport& report, Colour colour);
/// A page with the same words, and the shares of each group as bars.
std::string assessment_page(const AssessmentReport& report);
/// Described by reports/assessment.schema.json.
std::string assessment_json(const AssessmentReport& report);
std::string free_text(const FreeReport& report, Colour colour);

}  // namespace insideline::reports
