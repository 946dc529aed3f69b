// Lays a chart out along the bars of a solo, and tells where the two contradict each other.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace insideline {

struct Alignment {
  int start_bar = 1;  ///< the bar of the solo (1 = first full bar) that falls on bar 1 of the chart
};

/// Where the start bar begins. One outside the solo counts on in bars of the solo's first or last meter.
Beats first_bar_onset(const Solo& solo, const Alignment& alignment);

/// The chords as they sound under the solo, to the end of its last bar. A looping
/// chart repeats, also backwards, so that a solo may begin inside a chorus; each
/// pass is a chorus, the first of them number 1. In the pickup no chord sounds.
Harmony lay_out(const Changes& changes, const Solo& solo, const Alignment& alignment = {});

enum class Contradiction : std::uint8_t {
  meter,        ///< the chart cannot lie under the solo
  bars,         ///< an irregular bar of the solo throws the bars out of step
  key,          ///< different key signatures
  written_key,  ///< the chart's key is the solo's written key: it is not in concert pitch
  pickup        ///< the chart states another pickup than the solo has
};

struct Disagreement {
  Contradiction kind = Contradiction::meter;
  std::string message;  ///< one sentence, without a remedy where the command line has it
};

/// Where a looping chart and the solo it is meant for contradict each other, each kind at most
/// once and in the order of the enum; empty for chords written over the score itself.
std::vector<Disagreement> disagreements(const Changes& changes, const Solo& solo, const Alignment& alignment = {});

}  // namespace insideline
