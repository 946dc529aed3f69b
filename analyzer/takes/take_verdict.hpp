// Whether a take shows that its sheet is ready: the right notes, the whole sheet, without a stop, in one tempo, evenly.
#pragma once

#include "analyzer/takes/assessment.hpp"
#include "analyzer/takes/readiness.hpp"

namespace insideline {

struct TakeVerdict {
  Share right;                             ///< what was counted: a note that was added is a mistake as well
  Readiness notes = Readiness::unsettled;  ///< from that count alone
  bool whole = false;                      ///< every bar of the sheet that has notes
  bool unbroken = false;                   ///< nothing begun again, left out, no beat lost or gained
  bool as_written = true;                  ///< hardly a note added
  bool steady = true;                      ///< in one tempo; true for a take without times, as is `even`
  bool even = true;
  bool complete = false;                       ///< whole and unbroken: less is no take of the sheet
  Readiness readiness = Readiness::unsettled;  ///< the whole verdict: ready only with all of it
};
TakeVerdict verdict_of(const Assessment& assessment, int bound, const TakeBounds& bounds = {});

}  // namespace insideline
