// The same bars of the compared solos, each line against the first, and what is said of them.
#pragma once

#include "analyzer/measures/same_bars.hpp"
#include "reports/comparison/comparison_report.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline::reports {

/// Solo `other` (1 or above) against the first.
struct BesideFirst {
  std::size_t other = 1;
  SameBars bars;
};

/// One for each solo after the first that shares bars with it: those of the same number, in choruses those at the same
/// place of the form. Empty for sections, which are different parts of the form.
std::vector<BesideFirst> solos_beside_first(const ComparisonReport& report);

/// The report that solo `index` is in.
const Report& report_of_solo(const ComparisonReport& report, std::size_t index);

/// "bar 5", or "bars 5 and 21" where the numbers differ.
std::string bar_name(const ComparisonReport& report, const BesideFirst& pair, const SameBar& bar);

/// How often each kind comes; notes that are struck together are counted once.
struct BesideCounts {
  int same = 0;
  int other_pitch = 0;
  int other_role = 0;
  int other_pitch_and_role = 0;
  int only_first = 0;
  int only_other = 0;
};
BesideCounts counts_of(const SameBar& bar);

/// "2 notes the same, 1 of another pitch, 4 only in Anke, 3 only in Bjarne"; "both rest".
std::string counts_in_words(const ComparisonReport& report, const BesideFirst& pair, const SameBar& bar);

/// The measure, in two sentences.
std::string how_bars_differ();

}  // namespace insideline::reports
