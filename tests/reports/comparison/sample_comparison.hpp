// Two or more made-up solos of the same three bars (tests/reports/sample_report.hpp), whose figures all have the
// amounts that a test wants.
#pragma once

#include "reports/comparison/comparison_report.hpp"

#include <string>
#include <utility>
#include <vector>

namespace insideline::tests {

using NamedBars = std::pair<std::string, BarSeries>;

/// Sixteen bars of five notes each, of which `parts` in turn are what is counted.
BarSeries sixteen_bars(const std::vector<double>& parts);

reports::ComparisonReport sample_comparison(const std::vector<NamedBars>& solos,
                                            reports::Occasion occasion = reports::Occasion::solos);

/// The index of a figure in figure_rows().
std::size_t figure_index(const std::string& key);

}  // namespace insideline::tests
