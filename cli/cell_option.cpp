#include "cli/cell_option.hpp"

#include <algorithm>
#include <array>
#include <sstream>

namespace insideline::cli {

std::optional<DrillCell> parsed_cell(const std::string& text, std::string& problem) {
  static constexpr std::array known{1, 2, 3, 4, 5, 6, 7, 9, 11, 13};
  std::string plain = text;
  std::ranges::replace(plain, '-', ' ');
  std::istringstream words(plain);
  DrillCell cell;
  for (std::string word; words >> word;) {
    const auto degree = word == "maj7" ? std::optional(Degree{7, 0}) : parse_degree(word);
    if (!degree || std::ranges::find(known, degree->number) == known.end()) {
      problem = "'" + word + "' is no tone of a chord; a cell is made of 1 2 3 4 5 6 7 9 11 13, as in \"3 5 7 9\"";
      return std::nullopt;
    }
    if (!cell.tones.empty() && cell.tones.back().asked.number == degree->number) {
      problem = "'" + word + "' stands twice in a row";
      return std::nullopt;
    }
    cell.tones.push_back({*degree, word.front() == 'b' || word.front() == '#' || word == "maj7"});
  }
  constexpr std::size_t most_tones = 8;
  if (cell.tones.size() >= 2 && cell.tones.size() <= most_tones) return cell;
  problem = "'" + text + "' is no cell; name two to eight tones, as in \"7 3 5\"";
  return std::nullopt;
}

std::string not_a_cell(const std::string& text) {
  std::string problem;
  parsed_cell(text, problem);
  return problem;
}

}  // namespace insideline::cli
