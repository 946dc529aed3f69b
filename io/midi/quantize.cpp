#include "io/midi/quantize.hpp"

#include "io/midi/note_ends.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace insideline::io {
namespace {

constexpr std::size_t notes_to_learn_from = 100;  // enough to know a player by
constexpr double hopeless_per_note = 0.4;         // a first guess dearer than the best so far by this is given up

/// What is improbable about a player: far from the beat, and, for the readings to be compared, a wide spread, which
/// makes every distance cheap.
double manner_cost(const Manner& manner, std::size_t notes) {
  constexpr double usually_late_seconds = 0.015;
  const double late = manner.late_seconds / usually_late_seconds;
  return 0.5 * late * late + static_cast<double>(notes) * std::log(manner.spread_seconds);
}

bool is_alike(const Manner& a, const Manner& b) {
  constexpr double beats = 0.004;
  constexpr double seconds = 0.0015;
  return std::abs(a.off_beat - b.off_beat) < beats && std::abs(a.spread_seconds - b.spread_seconds) < seconds &&
         std::abs(a.late_seconds - b.late_seconds) < seconds;
}

/// Reads, listens how the reading was played, and reads again; of several first guesses the one that ends best.
Manner learnt_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                     std::span<const Subdivision> figures) {
  constexpr int rounds = 3;
  const auto lesson = notes.first(std::min(notes.size(), notes_to_learn_from));
  Manner best;
  double best_cost = std::numeric_limits<double>::infinity();
  for (Manner manner : first_manners(lesson, cells)) {
    for (int round = 0; round < rounds; ++round) {
      const Reading reading = cheapest_path(lesson, cells, figures, std::array{manner});
      const double cost = reading.cost + manner_cost(manner, lesson.size());
      if (cost < best_cost) {
        best_cost = cost;
        best = manner;
      }
      if (cost > best_cost + hopeless_per_note * static_cast<double>(lesson.size())) break;
      const Manner heard = heard_manner(lesson, cells, figures, reading.placed, manner);
      if (is_alike(heard, manner)) break;
      manner = heard;
    }
  }
  return best;
}

}  // namespace

Quantized quantized(std::span<const TimedNote> notes, std::span<const BeatCell> cells, std::span<const Grid> grids) {
  const std::vector<Subdivision> figures = subdivisions(grids);
  Quantized result;
  result.manner = learnt_manner(notes, cells, figures);
  const auto first = cheapest_path(notes, cells, figures, std::array{result.manner}).placed;
  const auto manners = manners_by_phrase(notes, cells, figures, first, result.manner);
  const auto placed = manners.size() == 1 ? first : cheapest_path(notes, cells, figures, manners).placed;
  result.notes = with_ends(notes, cells, figures, placed, result.manner);
  return result;
}

}  // namespace insideline::io
