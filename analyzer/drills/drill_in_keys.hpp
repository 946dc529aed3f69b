// A practice sheet through all keys: one line, moved from key to key, in the octave that the range allows; what would
// still leave the range there, an octave up or down.
#pragma once

#include "analyzer/drills/drill.hpp"
#include "analyzer/key_moves.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace insideline {

/// Notes in a row that lie an octave away from where the line has them, as they would leave the range.
struct OctaveMove {
  std::size_t first = 0;  ///< into Solo::notes of the sheet
  std::size_t last = 0;
  int octaves = 1;  ///< 1 or -1
};

/// Where a key begins on the sheet.
struct KeyStart {
  std::size_t bar = 0;  ///< into Solo::bars
  Key key;
  bool own_line = false;  ///< the first key's line would leave the range here, also with notes in another octave
  std::vector<OctaveMove> moves{};     ///< in order; none of an own line
  std::vector<std::string> remarks{};  ///< of an own line that has more than the first key's; bars of this key alone
};

struct DrillInKeys {
  Drill drill;  ///< its remarks are those of the first key
  std::vector<KeyStart> keys;
};

/// `settings.choruses` times the form in each key, from the key of `changes`, which must be there, through all twelve.
/// Each key has the line of the first, as near in pitch to the key before as the range allows; where no octave
/// fits, some notes lie an octave away (octave_moves.hpp), and where that does not do, the key has a line of its own.
/// Chords and notes are spelled as the key is.
tl::expected<DrillInKeys, std::string> drill_in_keys(const Changes& changes, const DrillSettings& settings,
                                                     KeyOrder order);

}  // namespace insideline
