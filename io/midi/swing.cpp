#include "io/midi/swing.hpp"

#include "io/midi/parts_of_beat.hpp"

#include <algorithm>
#include <cmath>

namespace insideline::io {
namespace {

constexpr double straightest = 0.48;
constexpr double most_swung =
    0.78;  // 3.5:1, where published ratios end (Friberg & Sundstroem, Music Perception 19(3), 2002)
constexpr double evenest_seconds = 0.008;
constexpr double loosest_seconds = 0.035;

bool is_off_beat(const Subdivision& figure, const Placed& place) {
  return figure.placing == Placing::swung && figure.parts == 2 && place.part == 1 && !place.grace;
}

}  // namespace

double swing_ratio(double off_beat) { return off_beat / (1.0 - off_beat); }

Manner heard_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                    std::span<const Subdivision> figures, std::span<const Placed> placed, const Manner& before) {
  // Few notes say little: each figure is drawn towards what was believed before.
  constexpr double believed_off_beats = 4.0;
  constexpr double believed_notes = 10.0;
  constexpr double deviation_of_mean_distance = 1.2533;  // of a normal distribution; far notes count less so
  double off_beats = believed_off_beats * before.off_beat;
  double off_beat_count = believed_off_beats;
  double distances = believed_notes * before.spread_seconds / deviation_of_mean_distance;
  double count = believed_notes;
  std::size_t sounding = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if (placed[i].grace) continue;
    sounding = cell_at(cells, notes[i].onset_seconds, sounding);
    const BeatCell& cell = cells[placed[i].cell];
    const Subdivision& figure = figures[placed[i].subdivision];
    const double into = (notes[i].onset_seconds - cell.onset_seconds) / cell.length_seconds - before.late[sounding];
    distances += std::abs(into - position_in_beat(figure, placed[i].part, before.off_beat)) * cell.length_seconds;
    count += 1.0;
    if (!is_off_beat(figure, placed[i])) continue;
    off_beats += into;
    off_beat_count += 1.0;
  }
  Manner heard = before;
  heard.off_beat = std::clamp(off_beats / off_beat_count, straightest, most_swung);
  heard.spread_seconds = std::clamp(deviation_of_mean_distance * distances / count, evenest_seconds, loosest_seconds);
  return heard;
}

}  // namespace insideline::io
