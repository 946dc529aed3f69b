#include "io/musicxml/endings.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::io::BackwardRepeat;
using insideline::io::Ending;
using insideline::io::Endings;
using insideline::io::find_endings;
using insideline::io::RoadSigns;

namespace {

/// Bars between blanks: "[1" begins an ending, "]" stops its bracket, ":" turns back, "." is a plain bar.
std::vector<RoadSigns> signs_of_bars(const std::string& line) {
  std::vector<RoadSigns> signs(1);
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == ' ') signs.emplace_back();
    if (line[i] == '[') signs.back().ending_start = {line[++i] - '0'};
    if (line[i] == ']') signs.back().ending_stop = true;
    if (line[i] == ':') signs.back().backward_repeat = BackwardRepeat{};
  }
  return signs;
}

/// "2-3 in 1 of 2": the bars of each ending, its passes, and how often its section is played.
std::string told(const Endings& endings) {
  std::string text;
  for (const Ending& ending : endings.all)
    text += fmt::format("{}{}-{} in {} of {}", text.empty() ? "" : "; ", ending.first + 1, ending.end,
                        fmt::join(ending.passes, ","), ending.group_passes);
  return text;
}

}  // namespace

TEST_CASE("each ending knows its bars, its passes and how often its section is played") {
  const auto [line, expected] = GENERATE(table<std::string, std::string>({
      {". [1]: [2] .", "2-2 in 1 of 2; 3-3 in 2 of 2"},
      {". [1] : [2 .] .", "2-3 in 1 of 2; 4-5 in 2 of 2"},
      {". [1]: .", "2-2 in 1 of 2"},
      {". [2] .", "2-2 in 1 of 1"},
      {". [1]: [1]: [3] .", "2-2 in 1 of 3; 3-3 in 2 of 3; 4-4 in 3 of 3"},
      {". [1]: . [1]: [2]", "2-2 in 1 of 2; 4-4 in 1 of 2; 5-5 in 2 of 2"},
      {". . .", ""},
  }));
  CHECK(told(find_endings(signs_of_bars(line))) == expected);
}

TEST_CASE("an ending that is given another number than its own is named") {
  CHECK(find_endings(signs_of_bars(". [1]: [1] .")).renumbered == std::vector<std::size_t>{2});
  CHECK(find_endings(signs_of_bars(". [2]: [3] .")).renumbered == std::vector<std::size_t>{1});
  CHECK(find_endings(signs_of_bars(". [1]: [2] .")).renumbered.empty());
}
