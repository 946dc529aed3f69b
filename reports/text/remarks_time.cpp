// How a performance sits in time: swing, ahead of the beat or behind it.
#include "reports/text/remarks.hpp"
#include "reports/text/time_wording.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

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
  if (feel->swing) section.remarks.emplace_back(swing_in_words(*feel->swing));
  if (feel->on_beat.notes == 0) return section;
  section.remarks.emplace_back(fmt::format("{} written on a beat: {}, with a spread of {:.0f} ms.",
                                           counted(feel->on_beat.notes, "note"), lateness_in_words(feel->on_beat),
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
