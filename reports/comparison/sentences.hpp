// What a comparison says in words.
#pragma once

#include "reports/comparison/comparison_report.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline::reports {

/// "71 %", "5.2", "+38".
std::string figure_text(const FigureRow& row, const FigureValue& value);
/// The counts behind it: "50/70"; "-" of nothing.
std::string counts_text(const FigureValue& value);
/// A difference in the figure's own measure, with its sign: "+13", "-0.4"; "0" of next to nothing.
std::string difference_text(const FigureRow& row, double difference);

/// One side of a comparison, worked through once.
struct Findings {
  std::vector<std::string> clear;          ///< a sentence for each main figure that clearly differs
  std::vector<std::string> clear_details;  ///< "thirds, more: 22 % against 13 %"
  std::vector<std::string> not_clear;      ///< names of main figures
  std::vector<std::string> too_few;        ///< names of main figures that cannot be judged
  std::vector<std::string> in_neither;     ///< names of all figures of which neither has any
  int details_not_clear = 0;
};

/// What is to be said of solo `other` (1 or above) against the first.
Findings findings_about(const ComparisonReport& report, std::size_t other);

/// One sentence on figure `row` of solo `other` against the first, whatever the verdict.
std::string sentence_about(const ComparisonReport& report, std::size_t other, std::size_t row);

/// Who plays, at the beginning of a sentence: the solo's name, "Chorus 2", "The later take".
std::string subject(const ComparisonReport& report, std::size_t solo);

/// How many comparisons were judged, and how many luck alone would make clear.
std::string many_looks(const ComparisonReport& report);

/// How the intervals were made, with what they can and cannot say.
std::string how_sure(const ComparisonReport& report);

/// The title of the page and of the printed text.
std::string comparison_title(const ComparisonReport& report);

}  // namespace insideline::reports
