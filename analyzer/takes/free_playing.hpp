// Free playing over changes: which bars got nothing.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/takes/played_course.hpp"

#include <vector>

namespace insideline {

struct FreePlaying {
  Share bars;                  ///< bars with a chord, to the end of the last chorus begun, and those that got a note
  std::vector<BarRun> silent;  ///< the others
};
/// A bar in which a note is held on got one.
FreePlaying free_playing(const Solo& take, const Analysis& analysis);

/// Whether few enough bars got nothing that the whole can be judged. Rests belong to free playing, so up to a quarter
/// of the bars may be silent (common practice, no source).
bool is_played_out(const FreePlaying& playing);

}  // namespace insideline
