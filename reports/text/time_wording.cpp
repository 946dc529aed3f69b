#include "reports/text/time_wording.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <cmath>

namespace insideline::reports {
namespace {

constexpr double on_the_beat_ms = 5.0;  // a mean closer than this is said to be on it
constexpr double nearly_straight = 1.15;

}  // namespace

std::string swing_in_words(const Swing& swing) {
  const std::string pairs = counted(swing.pairs, "pair");
  if (swing.ratio < nearly_straight)
    return fmt::format("Eighths are played nearly even: long to short {:.2f} to 1, the median of {}.", swing.ratio,
                       pairs);
  return fmt::format(
      "Eighths swing {:.2f} to 1, long to short, the median of {}; half of the pairs lie between {:.2f} and {:.2f}.",
      swing.ratio, pairs, swing.lower, swing.upper);
}

std::string lateness_in_words(const Lateness& lateness) {
  if (std::abs(lateness.mean_ms) < on_the_beat_ms)
    return fmt::format("on the beat (within {:.0f} ms on average)", on_the_beat_ms);
  return fmt::format("{:.0f} ms {} the beat ({:.0f} % of a beat)", std::abs(lateness.mean_ms),
                     lateness.mean_ms > 0 ? "behind" : "ahead of", std::abs(lateness.mean_percent));
}

std::string beat_in_words(const Beats& beat) {
  const std::int64_t whole = whole_units(beat, 1);
  const Beats part = remainder_within(beat, 1);
  if (part == Beats(0)) return std::to_string(whole);
  if (part == Beats(1, 2)) return fmt::format("{}&", whole);
  return fmt::format("{}+{}", whole, to_string(part));
}

}  // namespace insideline::reports
