// Whether a take shows that a sheet is ready. A take is a sample: the same player plays the sheet again with a mistake
// more or less. So what decides is not the share of right notes but what that share can be, given how many notes were
// counted (Wilson's interval, 95 %).
#pragma once

#include "analyzer/measures/results.hpp"

#include <cstdint>
#include <optional>

namespace insideline {

/// Ready is fewer than one mistake in so many notes; each > 1. Our choice, no source: a sheet says every note, and free
/// playing is allowed a little more.
struct ReadyBounds {
  int from_a_sheet = 8;  ///< a mistake is a note of the sheet that came out wrong or not at all
  int free = 6;          ///< a mistake is a note outside; one on its way to a chord tone is none
};

enum class Readiness : std::uint8_t {
  not_ready,  ///< even the best that fits the count is one mistake in `bound` notes or more
  unsettled,  ///< the count is too small, or too near the bound, to tell
  ready       ///< even the worst that fits the count is fewer than one mistake in `bound` notes
};
Readiness readiness(const Share& right, int bound);

/// How many mistakes in so many notes still show that it is ready; none where so few notes show nothing.
std::optional<int> most_mistakes_when_ready(int notes, int bound);
/// From how many mistakes on it is not ready; none where so few notes show nothing.
std::optional<int> fewest_mistakes_when_not_ready(int notes, int bound);

}  // namespace insideline
