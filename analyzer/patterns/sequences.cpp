#include "analyzer/patterns/sequences.hpp"

#include <algorithm>

namespace insideline {
namespace {

constexpr std::size_t longest_shape = 16;  // a bar of sixteenths
constexpr std::size_t long_shape = 6;      // twice is enough

class SequenceFinder {
 public:
  SequenceFinder(const HeardLine& line, const LineMoves& moves)
      : line_(line), moves_(moves.shapes), taken_(line.notes.size(), false) {}

  std::vector<Sequence> find(std::span<const ScaleInThirds> scales) {
    for (const ScaleInThirds& scale : scales)
      take(scale.first, scale.last + 1 - scale.first, 2, scale.rises, !scale.of_no_scale);
    for (std::size_t size = 2; size <= longest_shape; ++size) look_for_shapes_of(size);
    std::ranges::sort(found_, {}, &Sequence::first);
    return found_;
  }

 private:
  bool same_move(std::size_t a, std::size_t b) const { return moves_[a] != no_move && moves_[a] == moves_[b]; }

  /// The moves of a whole shape come again `size` notes later: one less than that in a row, so that looking at every
  /// so many finds one of them.
  void look_for_shapes_of(std::size_t size) {
    const std::size_t fewest = size - 1;
    std::size_t first = 0;  // no move before it is looked at again
    for (std::size_t some = fewest; some + size < moves_.size(); some += fewest) {
      if (some <= first || !same_move(some, some + size)) continue;
      std::size_t before = some - 1;
      while (before > first && same_move(before, before + size)) --before;
      std::size_t next = some + 1;
      while (next + size < moves_.size() && same_move(next, next + size)) ++next;
      if (next - before > fewest) consider(before, next - before - 1 + size, size);
      first = next;
    }
  }

  /// `moves` in a row that repeat every `size` notes.
  void consider(std::size_t first, std::size_t moves, std::size_t size) {
    const std::size_t notes = moves + 1;
    const std::size_t times = notes / size;
    if (times < (size < long_shape ? 3U : 2U) || moves_[first + size] == no_move || is_taken(first, times * size))
      return;
    for (std::size_t smaller = 1; smaller < size; ++smaller)
      if (repeats_every(first, moves, smaller)) return;
    const int way = shift(first, size);
    for (std::size_t shape = 0; shape + 1 < times; ++shape)
      if (shift(first + shape * size, size) * way <= 0) return;
    take(first, times * size, size, way > 0, false);
  }

  int shift(std::size_t first, std::size_t size) const {
    return line_.notes[first + size].midi - line_.notes[first].midi;
  }

  bool repeats_every(std::size_t first, std::size_t moves, std::size_t size) const {
    for (std::size_t i = first + 1; i + size <= first + moves; ++i)
      if (!same_move(i, i + size)) return false;
    return true;
  }

  bool is_taken(std::size_t first, std::size_t notes) const {
    for (std::size_t i = first; i < first + notes; ++i)
      if (taken_[i]) return true;
    return false;
  }

  void take(std::size_t first, std::size_t notes, std::size_t size, bool up, bool thirds) {
    for (std::size_t i = first; i < first + notes; ++i) taken_[i] = true;
    found_.push_back({.first = line_.notes[first].note,
                      .last = line_.notes[first + notes - 1].note,
                      .notes = static_cast<int>(size),
                      .times = static_cast<int>(notes / size),
                      .up = up,
                      .thirds = thirds});
  }

  const HeardLine& line_;
  std::span<const int> moves_;
  std::vector<bool> taken_;
  std::vector<Sequence> found_;
};

}  // namespace

std::vector<Sequence> find_sequences(const HeardLine& line, const LineMoves& moves,
                                     std::span<const ScaleInThirds> scales) {
  return SequenceFinder(line, moves).find(scales);
}

}  // namespace insideline
