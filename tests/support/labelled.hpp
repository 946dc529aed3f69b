// Labels a line in one call, for tests.
#pragma once

#include "analyzer/analysis.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

struct LabelledLine {
  Solo solo;
  Harmony harmony;
  std::vector<NoteLabel> labels;
};

LabelledLine labelled(std::string_view chords, std::string_view melody, const Beats& start_beat = 1,
                      const Meter& meter = {}, const Settings& settings = {});

/// The labels as codes with a space between (tests/support/label_file.hpp): "CT:1 PT CT:3".
std::string codes(const std::vector<NoteLabel>& labels);

}  // namespace insideline::tests
