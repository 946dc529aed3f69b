// The course of a take in words: how much was played, where it broke, tempo and evenness, and note by note what was to
// be played and what was.
#pragma once

#include "reports/assessment/assessment_report.hpp"

#include <string>
#include <vector>

namespace insideline::reports {

std::vector<std::string> course_sentences(const AssessmentReport& report);

/// "bar 5", "bars 9 to 12 and 31"
std::string bars_in_words(const std::vector<BarRun>& runs);

/// A mistake: where, what was to be played, what was. "bar 5, beat 2&", "Eb4", "E4"; "-" for nothing.
struct MistakeWords {
  std::string where;
  std::string wanted;
  std::string played;
};
MistakeWords in_words(const Mistake& mistake);

}  // namespace insideline::reports
