// The figures of the summary by name, for the analysis file.
#pragma once

#include "reports/json_writer.hpp"
#include "reports/report.hpp"

namespace insideline::reports {

/// The member `summary`. Every share stands beside its counts: a `x_share` has a `x_share_counts`. An undefined share
/// is null.
void write_summary(JsonWriter& json, const Report& report);

}  // namespace insideline::reports
