// A take against its sheet: right notes by chord, direction, inversion and place, how evenly they come, and where
// most goes wrong. Every share keeps its counts.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/takes/take_alignment.hpp"

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

/// How evenly the notes come, against the tempo that the player holds just then (four notes on either side).
struct Evenness {
  int notes = 0;                ///< > 2
  double tempo_bpm = 0.0;       ///< quarter notes a minute, over the whole take
  double spread_ms = 0.0;       ///< standard deviation of the onsets from where that tempo puts them
  double spread_percent = 0.0;  ///< the same in percent of a quarter note
};

/// Why the take is held to be of another sheet.
struct AnotherSheet {
  Share right;                   ///< of the sheet's notes, as it is
  std::optional<int> semitones;  ///< moved by so many it would fit
  std::optional<Share> right_if_moved;
};

struct Assessment {
  TakeAlignment alignment;
  TakeGroup all;
  int added = 0;
  int restarts = 0;
  int passes = 1;                   ///< how often the sheet was played through from its beginning
  std::vector<TakeGroup> by_pass;   ///< where there are several
  std::vector<TakeGroup> by_chord;  ///< by symbol, in order of appearance
  std::vector<TakeGroup> by_quality;
  std::vector<TakeGroup> by_direction;   ///< of the sheet's arpeggios: up, down, both ways
  std::vector<TakeGroup> by_inversion;   ///< of the sheet's arpeggios
  std::vector<TakeGroup> by_cell;        ///< arpeggios by their degrees: "3 5 b7"
  std::vector<TakeGroup> by_place;       ///< "as the chord changes", "inside the chord"
  std::vector<TakeGroup> by_bar;         ///< bars that were begun
  std::vector<TakeGroup> trouble_spots;  ///< where most goes wrong: at most three, the worst first
  std::optional<Evenness> evenness;      ///< none for a take without times, or of fewer than three right notes
};

/// The take against the sheet. `sheet_analysis` is that of `sheet`. Grace notes are left out on both sides.
Assessment assess_take(const Solo& sheet, const Analysis& sheet_analysis, const Solo& take);

/// Set where fewer than half of the notes fit and no alignment of this sheet explains the take better than one that
/// is moved to another key does by chance.
std::optional<AnotherSheet> looks_like_another_sheet(const Solo& sheet, const Solo& take, const Assessment& assessment);

}  // namespace insideline
