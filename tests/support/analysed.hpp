// A line analysed in one call, for tests.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/heard_line.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

struct AnalysedLine {
  Solo solo;
  Analysis analysis;
  HeardLine heard;
};

AnalysedLine analysed(const Solo& solo, const Harmony& harmony, const Settings& settings = {});

/// Chords and melody as in tests/support/melody.hpp.
AnalysedLine analysed(std::string_view chords, std::string_view melody, const Meter& meter = {},
                      const Beats& start_beat = 1);

/// The notes of "C4 E4 G4" with `length` each.
std::string in_lengths_of(std::string_view length, std::string_view notes);

/// The melody and chords moved up by `by`.
Solo transposed(const Solo& solo, const Interval& by);
Harmony transposed(const Harmony& harmony, const Interval& by);

/// Random notes and chords: the same for the same seed on every machine.
struct RandomLine {
  Solo solo;
  Harmony harmony;
};
RandomLine random_line(unsigned seed, int bars);

}  // namespace insideline::tests
