// The sentences of an assessment, the same for the terminal and the page.
#pragma once

#include "reports/assessment/assessment_report.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::reports {

/// "Ready: surely fewer than one mistake in 8 notes." Where it is not ready, how few mistakes it takes.
std::string readiness_in_words(const Share& right, int bound);

/// The same where something else keeps it from being ready: "By the notes alone: ready: surely ..."
std::string notes_alone_in_words(const Share& right, int bound);

/// The verdict, then how much was played, tempo and evenness, where most goes wrong, and what to do next.
std::vector<std::string> assessment_sentences(const AssessmentReport& report);

struct GroupTable {
  std::string_view title;
  const std::vector<TakeGroup>* groups;
};
/// The tables with something to compare, in order.
std::vector<GroupTable> group_tables(const Assessment& assessment);

/// "5 mistakes or fewer", "no mistake at all"
std::string at_most_mistakes(int mistakes);

/// What the log advises about the tempo; empty without a log.
std::string tempo_advice(const AssessmentReport& report);

/// "2 wrong, 1 an octave off, 3 missing"; empty where all is right.
std::string mistakes_of(const TakeGroup& group);

}  // namespace insideline::reports
