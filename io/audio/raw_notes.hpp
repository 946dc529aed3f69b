// From the steps of a path to notes: where each really begins, and pieces that are no notes of their own, as the scoop
// into a note and the fall at its end.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace insideline::io {

/// Counted in moments.
struct RawNote {
  std::size_t begin = 0;
  std::size_t end = 0;
  int midi = 60;
  float attack = 0.0F;  ///< how sure the attack at its beginning is, 0 to 1
  float fit = 0.0F;     ///< how well its moments fit its pitch, their mean, 0 to 1
};

/// Joins pieces to the notes that they belong to, and leaves out what is too short to be one.
std::vector<RawNote> joined(std::span<const RawNote> pieces);

}  // namespace insideline::io
