// The figures of the summary by name, for the analysis file.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "reports/report.hpp"

namespace insideline::reports {

/// Every share stands beside its counts: a `x_share` has a `x_share_counts`. An
/// undefined share is null.
nlohmann::ordered_json summary_json(const Report& report);

}  // namespace insideline::reports
