// A practice sheet through all keys: one line, moved from key to key, in the octave that the range allows.
#pragma once

#include "analyzer/drills/drill.hpp"
#include "analyzer/key_moves.hpp"

#include <cstddef>
#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace insideline {

/// Where a key begins on the sheet.
struct KeyStart {
  std::size_t bar = 0;  ///< into Solo::bars
  Key key;
  bool own_line = false;               ///< the first key's line would leave the range here
  std::vector<std::string> remarks{};  ///< of an own line that has more than the first key's; bars of this key alone
};

struct DrillInKeys {
  Drill drill;  ///< its remarks are those of the first key
  std::vector<KeyStart> keys;
};

/// `settings.choruses` times the form in each key, from the key of `changes`, which must be there, through all twelve.
/// Each key has the line of the first, as near in pitch to the key before as the range allows; where no octave fits,
/// the key has a line of its own. Chords and notes are spelled as the key is.
tl::expected<DrillInKeys, std::string> drill_in_keys(const Changes& changes, const DrillSettings& settings,
                                                     KeyOrder order);

}  // namespace insideline
