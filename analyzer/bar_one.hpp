// Where bar 1 of a recording is. Empty bars at its beginning are a count-in, or the chart counts them and the soloist
// waits: with a chart both are tried.
#pragma once

#include "analyzer/measures/results.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace insideline {

/// Bars before bar 1 that a reader left out.
struct CountIn {
  std::vector<Bar> bars;  ///< in order, without gaps; the last ends where bar 1 begins. A pickup lies in the last
  bool has_pickup = false;
  int file_bars = 0;   ///< bars of the whole recording, with these
  std::string remark;  ///< what the reader said about it
};

/// What speaks for a place of bar 1.
struct BarOnePlace {
  int kept = 0;       ///< so many of the bars left out are counted after all
  Share chord_tones;  ///< of the notes over a chord, strictly
};

struct BarOneChoice {
  int bars = 0;  ///< before the bar of the first note, or before the bar line after a pickup
  BarOnePlace chosen;
  BarOnePlace runner_up;
  bool as_long_as_chart = false;  ///< the chart has exactly as many bars as the solo at the chosen place
};

/// The likeliest place for a chart that goes round, and the next; none where the bars of the chart and of the count-in
/// are not of one length. The notes decide, with what the chart says of the length and of bars without a chord.
std::optional<BarOneChoice> choose_bar_one(const Changes& changes, const Solo& solo, const CountIn& count_in);

/// The solo counted from the first of `kept`, which end where its bar 1 begins.
Solo counted_with(Solo solo, std::span<const Bar> kept);

}  // namespace insideline
