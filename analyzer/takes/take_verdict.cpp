#include "analyzer/takes/take_verdict.hpp"

#include <cmath>

namespace insideline {

TakeVerdict verdict_of(const Assessment& assessment, int bound, const TakeBounds& bounds) {
  TakeVerdict verdict;
  verdict.right = {.count = assessment.all.right.count, .of = assessment.all.right.of + assessment.added};
  verdict.notes = readiness(verdict.right, bound);
  verdict.whole = assessment.coverage.bars.of > 0 && assessment.coverage.silent.empty();
  verdict.unbroken = assessment.interruptions.empty();
  verdict.complete = assessment.complete;
  verdict.as_written = assessment.added * bounds.notes_an_added_one <= assessment.all.right.of;
  if (assessment.tempo)
    verdict.steady =
        assessment.tempo->jumps.empty() && std::abs(assessment.tempo->furthest_percent) <= bounds.tempo_band_percent;
  if (assessment.evenness) verdict.even = assessment.evenness->spread_percent <= bounds.uneven_percent;
  const bool all_else = verdict.complete && verdict.as_written && verdict.steady && verdict.even;
  verdict.readiness = all_else ? verdict.notes : Readiness::not_ready;
  return verdict;
}

}  // namespace insideline
