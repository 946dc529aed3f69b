// From a solo to its practice: what it does most, to be taken over, and what it lacks, to be worked on.
// A solo that is too short says nothing about what it lacks: 30 notes and 8 changes are common practice, no source.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/drills/drill_settings.hpp"
#include "analyzer/drills/usual_shares.hpp"

#include <string>
#include <vector>

namespace insideline {

/// What was taken over, in words.
struct Habits {
  std::vector<std::string> sentences;
};

/// Sets cells, directions and connections as the solo has them; the rest of `settings` stays. Where the solo
/// has no cell of three chord tones, two are taken; without any, `settings` stay and the sentence says so.
Habits take_habits(const Analysis& analysis, DrillSettings& settings);

/// Something the solo lacks.
struct Gap {
  std::string sentence;  ///< with the counts that show it
  std::string exercise;  ///< what practises it
  DrillSettings drill;   ///< kind, way, inversion, first tone and cells; the rest as given
};

/// The gaps: what never happens in 8 chances or more, and what happens far less often than `usual` says, that which
/// lies furthest below it first; none where the solo lacks nothing that we look for.
std::vector<Gap> gaps_of(const Analysis& analysis, const DrillSettings& settings,
                         const std::vector<UsualShare>& usual = stated_shares());

/// Whether there are enough notes and changes for a gap to mean anything: 30 and 8.
bool is_long_enough(const Analysis& analysis);

}  // namespace insideline
