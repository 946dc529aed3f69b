#include "analyzer/drills/usual_shares.hpp"

#include "analyzer/measures/proportion.hpp"

namespace insideline {

std::vector<UsualShare> stated_shares() {
  const std::string where = "the median of the ten demo pieces";
  return {
      {"arpeggio_notes", 0.68, where}, {"thirds_given", 0.94, where},
      {"sevenths_given", 0.66, where}, {"guide_tone_resolutions", 0.21, where},
      {"arpeggios_down", 0.48, where}, {"straight_descents", 0.78, where},
      {"nearest_taken", 0.76, where},  {"crossed_by_common_tone", 0.03, where},
  };
}

bool is_far_below(const Share& share, double usual) {
  constexpr double far = 2.0 / 3.0;
  const auto interval = wilson_interval(share);
  return interval && interval->high < usual && *ratio(share) < far * usual;
}

}  // namespace insideline
