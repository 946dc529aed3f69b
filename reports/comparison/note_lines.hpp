// The lines of several solos as small pictures under each other, on one time axis and one pitch axis: a stroke a note,
// as long as it sounds, by role. Where two lines are busy, where they rest and how high they go is seen at a glance.
#pragma once

#include "reports/comparison/comparison_report.hpp"
#include "reports/html/markup.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline::reports {

/// A stretch of a solo: bars `first_bar` to `last_bar` (indexes into Solo::bars, both included).
struct LinePanel {
  std::string name;
  const Report* report = nullptr;
  std::size_t first_bar = 0;
  std::size_t last_bar = 0;
};

/// One a solo, or one a chorus. The panels point into `report`.
std::vector<LinePanel> line_panels(const ComparisonReport& report);

Markup note_lines(const std::vector<LinePanel>& panels);

}  // namespace insideline::reports
