#include "analyzer/scales_in_thirds.hpp"

#include <cstdlib>

namespace insideline {
namespace {

constexpr std::size_t fewest_thirds = 3;

class ThirdsReader {
 public:
  explicit ThirdsReader(const HeardLine& line) : line_(line) {}

  /// Semitones from note to note; 0 where the line does not go on.
  int move(std::size_t from, std::size_t to) const {
    if (to >= line_.notes.size()) return 0;
    for (std::size_t i = from + 1; i <= to; ++i)
      if (line_.notes[i].after_rest || line_.notes[i].phrase != line_.notes[from].phrase) return 0;
    return line_.notes[to].midi - line_.notes[from].midi;
  }

  bool is_third(int semitones) const { return std::abs(semitones) == 3 || std::abs(semitones) == 4; }

  ScaleInThirds from(std::size_t first) const {
    const int third = move(first, first + 1);
    ScaleInThirds scale{first, first + 1, false, true};
    int way = 0;
    for (std::size_t next = first + 2;; next += 2) {
      const int step = move(next - 2, next);
      const int its_third = move(next, next + 1);
      const bool steps_on = std::abs(step) == 1 || std::abs(step) == 2;
      if (!steps_on || step * way < 0 || !is_third(its_third) || (its_third > 0) != (third > 0)) return scale;
      way = step;
      scale.last = next + 1;
      scale.rises = step > 0;
      scale.of_no_scale = scale.of_no_scale && std::abs(step) == 1 && its_third == third;
    }
  }

 private:
  const HeardLine& line_;
};

}  // namespace

std::vector<ScaleInThirds> find_scales_in_thirds(const HeardLine& line) {
  std::vector<ScaleInThirds> scales;
  const ThirdsReader reader(line);
  for (std::size_t first = 0; first + 1 < line.notes.size(); ++first) {
    if (!reader.is_third(reader.move(first, first + 1))) continue;
    const ScaleInThirds scale = reader.from(first);
    if ((scale.last + 1 - scale.first) / 2 < fewest_thirds) continue;
    scales.push_back(scale);
    first = scale.last;
  }
  return scales;
}

}  // namespace insideline
