// A take against its sheet: how much of it was played and where the player broke off, right notes by chord, direction,
// inversion and place, the tempo, how evenly the notes come, and where most goes wrong. Every share keeps its counts.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/takes/played_course.hpp"
#include "analyzer/takes/take_alignment.hpp"
#include "analyzer/takes/take_bounds.hpp"
#include "analyzer/takes/take_time.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

/// A heap of notes that are judged together.
struct TakeGroup {
  std::string name;  ///< "Dm7", "bar 5", "down", "first inversion"
  Share right;       ///< attempts that struck the right note, of all
  int octave_slips = 0;
  int wrong = 0;
  int missing = 0;
};

struct Assessment {
  TakeAlignment alignment;
  TakeGroup all;
  int added = 0;
  int restarts = 0;                 ///< how often the player went back in the middle
  int passes = 1;                   ///< how often the sheet was played through from its beginning
  std::vector<TakeGroup> by_pass;   ///< where there are several
  std::vector<TakeGroup> by_chord;  ///< by symbol, in order of appearance
  std::vector<TakeGroup> by_quality;
  std::vector<TakeGroup> by_direction;     ///< of the sheet's arpeggios: up, down, both ways
  std::vector<TakeGroup> by_inversion;     ///< of the sheet's arpeggios
  std::vector<TakeGroup> by_cell;          ///< arpeggios by their degrees: "3 5 b7"
  std::vector<TakeGroup> by_place;         ///< "as the chord changes", "inside the chord"
  std::vector<TakeGroup> by_form_bar;      ///< of lettered sections that come several times: "bar 3 of each A"
  std::vector<TakeGroup> by_bar;           ///< bars that were begun
  std::vector<TakeGroup> bars_to_work_on;  ///< of those, the bars where not all was right
  std::vector<TakeGroup>
      trouble_spots;  ///< patterns with enough cases to be no accident: at most three, the worst first
  Coverage coverage;
  std::vector<Interruption> interruptions;
  std::vector<std::string> hesitations;  ///< bars with a note that comes late or early, but by less than a beat
  std::vector<Mistake> mistakes;
  std::optional<TempoCourse> tempo;  ///< as `evenness`
  std::optional<Evenness> evenness;  ///< none for a take without times, or of fewer than three right notes
  bool complete = false;             ///< the whole sheet without an interruption
};

/// The take against the sheet. `sheet_analysis` is that of `sheet`. A sheet's grace notes are left out: played
/// or not, they count neither for nor against.
Assessment assess_take(const Solo& sheet, const Analysis& sheet_analysis, const Solo& take,
                       const TakeBounds& bounds = {});

}  // namespace insideline
