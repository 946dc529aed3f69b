// Why a note is labelled as it is: every reading the model weighed, how likely it is,
// and the rows of the score table that speak for and against it.
#pragma once

#include "analyzer/labels/label_notes.hpp"
#include "reports/report.hpp"

#include <iosfwd>
#include <span>

namespace insideline::reports {

/// One block a note, in 80 columns. `notes` are indices into report.solo.notes; `settings` are
/// those the analysis was made with.
void write_explanation(std::ostream& out, const Report& report, std::span<const std::size_t> notes,
                       const Settings& settings);

}  // namespace insideline::reports
