// How a chart is laid under a solo, and what is said where it does not seem to lie right.
#pragma once

#include "analyzer/model/changes.hpp"
#include "cli/solo_options.hpp"
#include "io/read_result.hpp"
#include "reports/report.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline::cli {

/// With a chart at hand, decides whether the empty bars of a recording count. The solo of `read` is then counted from
/// the place chosen, and the remark of the reader is gone where the bars are no longer left out.
void place_bar_one(io::ReadResult& read, const Changes& changes, reports::Report& report);

/// `weight_of_fit` of the solo where it lies over the chart. None where there are no other places.
std::optional<double> fit_over_chart(const Changes& changes, const Solo& solo, const SoloOptions& options);

/// Doubts about the place, as warnings; a better place stands in the report, too. Throws io::ReadError where the
/// changes cannot lie under the solo at all.
std::vector<std::string> doubts_about_place(const Changes& changes, const io::ReadResult& read,
                                            const SoloOptions& options, reports::Report& report);

}  // namespace insideline::cli
