// The sentences of an assessment, the same for the terminal and the page.
#pragma once

#include "reports/assessment/assessment_report.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::reports {

/// "ready: right nine times in ten and more"
std::string rung_in_words(Rung rung, const Ladder& ladder);

/// The verdict, then evenness, added notes and restarts, where it breaks down, and what to do next.
std::vector<std::string> assessment_sentences(const AssessmentReport& report);

struct GroupTable {
  std::string_view title;
  const std::vector<TakeGroup>* groups;
};
/// The tables with something to compare, in order.
std::vector<GroupTable> group_tables(const Assessment& assessment);

/// What the log advises about the tempo; empty without a log.
std::string tempo_advice(const AssessmentReport& report);

/// "2 wrong, 1 an octave off, 3 missing"; empty where all is right.
std::string mistakes_of(const TakeGroup& group);

}  // namespace insideline::reports
