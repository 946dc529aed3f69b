#include "io/midi/note_ends.hpp"

#include "io/midi/parts_of_beat.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace insideline::io {
namespace {

// How a player's lengths relate to written ones (common practice, no source).
constexpr double cost_of_short = 0.6;  // a note released early is more usual than one held over
constexpr double rest_share = 0.3;     // a silence of this share of the way to the next note is a rest ...
constexpr double rest_seconds = 0.2;   // ... and so is one of this length ...
constexpr double rest_in_beats = 0.4;  // ... if it is at least about an eighth

std::int64_t onset_of(const Placed& place, std::span<const BeatCell> cells, std::span<const Subdivision> figures) {
  const BeatCell& cell = cells[place.cell];
  return cell.onset + cell.length * place.part / figures[place.subdivision].parts;
}

/// Where a note may end: on the beats after its onset, on their halves (thirds in 6/8), and on its own subdivision.
class EndFinder {
 public:
  EndFinder(std::span<const BeatCell> cells, std::span<const Subdivision> figures, const Manner& manner)
      : cells_(cells), figures_(figures), manner_(manner) {}

  /// `latest` is where the next note begins.
  [[nodiscard]] std::int64_t nearest_end(const TimedNote& note, const Placed& place, std::int64_t latest) const {
    const std::int64_t onset = onset_of(place, cells_, figures_);
    std::int64_t best = latest;
    double best_distance = std::numeric_limits<double>::infinity();
    const auto consider = [&](std::int64_t end, double end_seconds) {
      if (end <= onset || end > latest) return;
      const double held_over = note.end_seconds - end_seconds;
      const double distance = held_over >= 0.0 ? held_over : -cost_of_short * held_over;
      if (distance >= best_distance) return;
      best_distance = distance;
      best = end;
    };
    consider_own_figure(place, consider);
    for (std::size_t c = place.cell; c < cells_.size(); ++c) {
      consider_plain_places(cells_[c], consider);
      if (cells_[c].onset >= latest || cells_[c].onset_seconds > note.end_seconds + cells_[c].length_seconds) break;
    }
    return best;
  }

 private:
  template <typename Consider>
  void consider_own_figure(const Placed& place, const Consider& consider) const {
    const BeatCell& cell = cells_[place.cell];
    const Subdivision& figure = figures_[place.subdivision];
    for (std::uint8_t part = 1; part < figure.parts; ++part)
      consider(cell.onset + cell.length * part / figure.parts,
               cell.onset_seconds + cell.length_seconds * position_in_beat(figure, part, manner_.off_beat));
  }

  template <typename Consider>
  void consider_plain_places(const BeatCell& cell, const Consider& consider) const {
    consider(cell.onset, cell.onset_seconds);
    const int parts = cell.kind == BeatKind::simple ? 2 : 3;
    for (int part = 1; part <= parts; ++part) {
      const double even = static_cast<double>(part) / parts;
      const double place = cell.kind == BeatKind::simple && part == 1 ? manner_.off_beat : even;
      consider(cell.onset + cell.length * part / parts, cell.onset_seconds + cell.length_seconds * place);
    }
  }

  std::span<const BeatCell> cells_;
  std::span<const Subdivision> figures_;
  const Manner& manner_;
};

bool is_rest(const TimedNote& note, const TimedNote& next, const BeatCell& cell) {
  const double silence = next.onset_seconds - note.end_seconds;
  const double way = next.onset_seconds - note.onset_seconds;
  return silence > rest_in_beats * cell.length_seconds && (silence > rest_share * way || silence > rest_seconds);
}

/// A silence of a beat or more is a rest however long the note before it.
bool is_long_rest(const TimedNote& note, const TimedNote& next, const BeatCell& cell) {
  constexpr double almost_a_beat = 0.8;
  return next.onset_seconds - note.end_seconds > almost_a_beat * cell.length_seconds;
}

/// A note released before a beat is not written on into that beat's triplet or sixteenths.
bool stops_before_beat(const TimedNote& note, const Placed& place, const Placed& next, const BeatCell& next_cell,
                       const Subdivision& next_figure) {
  constexpr std::uint8_t plain_parts = 2;
  if (place.cell == next.cell || next.part == 0 || next_figure.parts <= plain_parts) return false;
  const double into_beat = note.end_seconds - next_cell.onset_seconds;
  return into_beat < next_cell.length_seconds * next.part / next_figure.parts / 2.0;
}

}  // namespace

std::vector<WrittenRhythm> with_ends(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                                     std::span<const Subdivision> figures, std::span<const Placed> placed,
                                     const Manner& manner) {
  const EndFinder ends(cells, figures, manner);
  std::vector<WrittenRhythm> written(notes.size());
  std::int64_t next_onset = std::numeric_limits<std::int64_t>::max();
  std::size_t next = notes.size();
  for (std::size_t i = notes.size(); i-- > 0;) {
    const std::int64_t onset = onset_of(placed[i], cells, figures);
    written[i] = {onset, 0, placed[i].grace};
    if (placed[i].grace) continue;
    const BeatCell& cell = cells[placed[i].cell];
    const bool breathes = next == notes.size() || is_rest(notes[i], notes[next], cell) ||
                          is_long_rest(notes[i], notes[next], cell) ||
                          stops_before_beat(notes[i], placed[i], placed[next], cells[placed[next].cell],
                                            figures[placed[next].subdivision]);
    const std::int64_t last = next == notes.size() ? cells.back().onset + cells.back().length : next_onset;
    const std::int64_t end = breathes ? ends.nearest_end(notes[i], placed[i], last) : next_onset;
    written[i].duration = end - onset;
    next_onset = onset;
    next = i;
  }
  return written;
}

}  // namespace insideline::io
