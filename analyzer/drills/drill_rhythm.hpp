// Where the notes of a practice sheet stand: the changes are cut into segments, one chord within one bar, and
// each segment gets its places. A note never sounds into the next chord, so that the page says what is heard.
#pragma once

#include "analyzer/drills/drill_settings.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace insideline {

struct Slot {
  Beats onset;
  Beats duration;  ///< > 0
};

/// One chord within one bar.
struct DrillSegment {
  std::size_t chord = 0;  ///< into Harmony::chords
  std::size_t bar = 0;    ///< into Solo::bars
  int chorus = 1;
  bool is_change = false;                 ///< another chord sounded right before
  bool goes_on = false;                   ///< the same chord sounded right before
  bool comes_on = false;                  ///< the same chord sounds right after
  std::vector<Slot> slots;                ///< in order; never empty
  std::optional<std::size_t> leads_to{};  ///< the other chord that sounds right after, into Harmony::chords
};

/// `bars` without notes, and the chords over them. `wanted_tones` gives how many tones the figure of a chord has: an
/// arpeggio or a cell takes that many places and rests; 0 fills the segment with a line. A line that encloses has three
/// places or more before a change. Guide tones share the segment among the voices. A descent has a place at the
/// beginning and, after a rest where there is room for one, its tones at the end.
std::vector<DrillSegment> segments_of(const Solo& bars, const Harmony& harmony, const DrillSettings& settings,
                                      const std::vector<std::size_t>& wanted_tones);

/// The same for cells of `tones` tones: they follow one another in the rhythm, across the bar lines, and begin anew
/// with each chord. The last cell of a chord has the places that are left.
std::vector<DrillSegment> cell_segments_of(const Solo& bars, const Harmony& harmony, const DrillSettings& settings,
                                           std::size_t tones);

}  // namespace insideline
