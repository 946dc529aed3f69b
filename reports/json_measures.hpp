// The measures of the analysis file that the contract of the summary does not name:
// densities by group, phrases, guide tones, cells, threads, what is heard from the line alone,
// how a performance sits in time.
#pragma once

#include "reports/json_writer.hpp"
#include "reports/report.hpp"

namespace insideline::reports {

/// The members `telling_bars`, `phrases`, `cells`, `threads`, `outline`, `heard_alone`,
/// `densities` and `time_feel`.
void write_measures(JsonWriter& json, const Report& report);

/// `heard`, of a line from a recording; else nothing.
void write_from_sound(JsonWriter& json, const std::optional<FromSound>& sound);

}  // namespace insideline::reports
