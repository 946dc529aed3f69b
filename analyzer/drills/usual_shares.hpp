// What is usual, so that a share can be far below it. No published share of these figures was found; the stated ones
// are measured: the median of the ten demo pieces of this project (corpus-demo, invented music), by `insideline
// survey`. A collection of real solos, where there is one, says it better.
#pragma once

#include "analyzer/measures/results.hpp"

#include <string>
#include <vector>

namespace insideline {

struct UsualShare {
  std::string figure;  ///< FigureRow::key
  double share = 0.0;  ///< 0..1
  std::string where;   ///< "the median of the ten demo pieces"
};

/// One for each figure that a solo is held against, in a fixed order.
std::vector<UsualShare> stated_shares();

/// Whether the share is far below `usual`: the whole 95 % interval (Wilson) lies below it, and the share itself below
/// two thirds of it. How far is far is our choice, without a source. False where nothing was counted.
bool is_far_below(const Share& share, double usual);

}  // namespace insideline
