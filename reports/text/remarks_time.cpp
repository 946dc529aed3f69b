// How a performance sits in time: swing, ahead of the beat or behind it.
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <cmath>

namespace insideline::reports {
namespace {

constexpr double on_the_beat_ms = 5.0;  // a mean closer than this is said to be on it
constexpr double nearly_straight = 1.15;

std::string swing_text(const Swing& swing) {
  const std::string pairs = counted(swing.pairs, "pair");
  if (swing.ratio < nearly_straight)
    return fmt::format("Eighths are played nearly even: long to short {:.2f} to 1, the median of {}.", swing.ratio,
                       pairs);
  return fmt::format(
      "Eighths swing {:.2f} to 1, long to short, the median of {}; half of the pairs lie between {:.2f} and {:.2f}.",
      swing.ratio, pairs, swing.lower, swing.upper);
}

/// "12 ms behind the beat (3 % of a beat)"
std::string lateness_text(const Lateness& lateness) {
  if (std::abs(lateness.mean_ms) < on_the_beat_ms)
    return fmt::format("on the beat (within {:.0f} ms on average)", on_the_beat_ms);
  return fmt::format("{:.0f} ms {} the beat ({:.0f} % of a beat)", std::abs(lateness.mean_ms),
                     lateness.mean_ms > 0 ? "behind" : "ahead of", std::abs(lateness.mean_percent));
}

CountRow by_beat_row(const BeatLateness& row, int notes) {
  return {.name = fmt::format("beat {}", row.beat),
          .share = {row.lateness.notes, notes},
          .beside = fmt::format("{:>+6.0f} ms   ± {:.0f} ms", row.lateness.mean_ms, row.lateness.spread_ms)};
}

}  // namespace

RemarkSection time_remarks(const Report& report) {
  RemarkSection section{"In time", {}};
  const auto& feel = report.analysis.time_feel;
  if (!feel) return section;
  if (feel->swing) section.remarks.emplace_back(swing_text(*feel->swing));
  if (feel->on_beat.notes == 0) return section;
  section.remarks.emplace_back(fmt::format("{} written on a beat: {}, with a spread of {:.0f} ms.",
                                           counted(feel->on_beat.notes, "note"), lateness_text(feel->on_beat),
                                           feel->on_beat.spread_ms));
  if (feel->off_beat && feel->off_beat->notes > 0)
    section.remarks.emplace_back(
        fmt::format("{} off the beat, held against where that swing puts {}: {:+.0f} ms, spread {:.0f} ms.",
                    counted(feel->off_beat->notes, "eighth"), feel->off_beat->notes == 1 ? "it" : "them",
                    feel->off_beat->mean_ms, feel->off_beat->spread_ms));
  if (feel->by_beat.size() < 2) return section;
  section.remarks.emplace_back("Behind (+) or ahead (-) by beat of the bar:");
  for (const BeatLateness& row : feel->by_beat) section.remarks.emplace_back(by_beat_row(row, feel->on_beat.notes));
  return section;
}

}  // namespace insideline::reports
